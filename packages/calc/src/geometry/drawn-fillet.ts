import { bounds, firstRefusal } from '../quantities.js';
import { refused, type ArgumentRefusal } from '../result.js';
import { filletSection, filletShape, type FilletShape } from './fillet-section.js';
import type { DrawnJoint, DrawnSection, DrawnShape } from './drawn-shapes.js';
import { filletOutline } from './outlines.js';
import type { Polygon } from './polygon.js';

type DrawnFillet = Extract<DrawnJoint, { form: 'tee' | 'lap' | 'corner' }>;

function box(left: number, top: number, right: number, bottom: number): Polygon {
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
}

function partsOfJoint(joint: DrawnFillet, { legMm, secondLegMm, gapMm }: FilletShape): Polygon[] {
  const { thicknessAMm: a, thicknessBMm: b } = joint;
  const reach = Math.max(legMm, secondLegMm);
  if (joint.form === 'lap') {
    const lying = box(-reach - 2 * a, -a - gapMm, 0, -gapMm);
    return [lying, box(-reach - 2 * a, 0, secondLegMm + 2 * a, b)];
  }
  if (joint.form === 'corner') {
    return [box(-reach - 2 * a, -a - gapMm, 0, -gapMm), box(0, 0, b, reach + 2 * b)];
  }
  const standing = box(-a, -gapMm - legMm - reach, 0, -gapMm);
  return [standing, box(-a - reach, 0, secondLegMm + reach, b)];
}

/** The flat triangle of the fillet with every length multiplied, its root kept where it is. */
function scaled(shape: FilletShape, times: number): Polygon {
  const { legMm, secondLegMm, gapMm } = shape;
  return [
    { x: 0, y: -(legMm * times + gapMm) },
    { x: secondLegMm * times, y: 0 },
  ];
}

/** From the root to the face, at a right angle to the face. */
function throatLine({ legMm, secondLegMm, gapMm }: FilletShape): Polygon {
  const length2 = legMm ** 2 + secondLegMm ** 2;
  const foot = {
    x: (secondLegMm * legMm ** 2) / length2,
    y: -(legMm * secondLegMm ** 2) / length2 - gapMm,
  };
  return [{ x: 0, y: -gapMm }, foot];
}

/** A leg that is longer than the edge it lies on: of part A for a lap, of either part at a corner. */
function edgeRefusal(
  { form, thicknessAMm, thicknessBMm }: DrawnFillet,
  { legMm, secondLegMm }: FilletShape,
): ArgumentRefusal | null {
  const allowed = (edgeMm: number) => `not more than the edge it stands on, ${edgeMm} mm`;
  if (form !== 'tee' && legMm > thicknessAMm)
    return { argument: 'legMm', given: legMm, allowed: allowed(thicknessAMm) };
  if (form === 'corner' && secondLegMm > thicknessBMm)
    return { argument: 'secondLegMm', given: secondLegMm, allowed: allowed(thicknessBMm) };
  return null;
}

/** A fillet with its parts. The laid size keeps the proportion of the legs, its face flat. */
export function drawnFillet(
  joint: DrawnFillet,
  { laidAreaMm2, runs }: { laidAreaMm2: number | null; runs: number },
): { ok: true; section: DrawnSection } | { ok: false; refusal: ArgumentRefusal } {
  const refusal = firstRefusal([
    ['thicknessAMm', joint.thicknessAMm, bounds.sectionMm],
    ['thicknessBMm', joint.thicknessBMm, bounds.sectionMm],
  ]);
  if (refusal) return refused(refusal);
  const found = filletShape(joint.fillet);
  if (!found.ok) return found;
  const area = filletSection(joint.fillet);
  if (!area.ok) return area;
  const { shape } = found;
  const tooHigh = edgeRefusal(joint, shape);
  if (tooHigh) return refused(tooHigh);
  const { flatMm2, legMm, secondLegMm, throatMm } = area.parts;
  const flatThroatMm = (legMm * secondLegMm) / Math.hypot(legMm, secondLegMm);
  const times = laidAreaMm2 === null ? null : Math.sqrt(laidAreaMm2 / flatMm2);
  const shapes: DrawnShape[] = [
    ...partsOfJoint(joint, shape).map(
      (points) => ({ role: 'part', points, closed: true }) as const,
    ),
    { role: 'metal', points: filletOutline(shape), closed: true },
    ...Array.from({ length: runs - 1 }, (_, index) => ({
      ...{ role: 'run' as const, closed: false },
      points: scaled(shape, Math.sqrt((index + 1) / runs)),
    })),
    { role: 'throat', points: throatLine(shape), closed: false },
    ...(times === null
      ? []
      : [{ role: 'laid' as const, points: scaled(shape, times), closed: false }]),
  ];
  const figures = {
    ...{ drawnAreaMm2: area.value, drawnThroatMm: throatMm, drawnLegMm: legMm, laidAreaMm2 },
    laidThroatMm: times === null ? null : flatThroatMm * times,
    laidLegMm: times === null ? null : legMm * times,
    laidFillMm: null,
  };
  return { ok: true, section: { shapes, figures } };
}
