import { bounds, firstRefusal } from '../quantities.js';
import { refused, type ArgumentRefusal } from '../result.js';
import { drawnFillet } from './drawn-fillet.js';
import { drawnGroove } from './drawn-groove.js';
import type { DrawnJoint, DrawnShape, JointDrawing, Laying } from './drawn-shapes.js';

/**
 * The cross-section of a weld to scale, in mm, seen along the weld: parts, preparation, drawn size, runs, and
 * the size that the dialled settings lay. Outlines and figures come from the same shape. Refuses by argument
 * what cannot be welded. Source: plane geometry; the laid size is a mass balance without penetration.
 */
export function jointDrawing(
  inputs: { joint: DrawnJoint } & Laying,
): { ok: true; drawing: JointDrawing } | { ok: false; refusal: ArgumentRefusal } {
  const { joint, laidAreaMm2, runs = 1 } = inputs;
  const refusal = firstRefusal([
    ['runs', runs, { ...bounds.count, max: 200 }],
    ...(laidAreaMm2 === undefined ? [] : [['laidAreaMm2', laidAreaMm2, bounds.areaMm2] as const]),
  ]);
  if (refusal) return refused(refusal);
  const laying = { laidAreaMm2: laidAreaMm2 === undefined ? null : laidAreaMm2 * runs, runs };
  const found =
    joint.form === 'groove' ? drawnGroove(joint.groove, laying) : drawnFillet(joint, laying);
  if (!found.ok) return found;
  return { ok: true, drawing: { ...found.section, view: viewOf(found.section.shapes) } };
}

/** The box around all shapes with a little paper around it. */
function viewOf(shapes: readonly DrawnShape[]): JointDrawing['view'] {
  const points = shapes.flatMap(({ points }) => points);
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  const [widthMm, heightMm] = [Math.max(...xs) - x, Math.max(...ys) - y];
  const edge = Math.max(widthMm, heightMm) * 0.04;
  return {
    x: x - edge,
    y: y - edge,
    widthMm: widthMm + 2 * edge,
    heightMm: heightMm + 2 * edge,
  };
}
