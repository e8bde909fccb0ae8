import type { ArgumentRefusal } from '../result.js';
import { grooveArea, grooveShape, type Groove, type GrooveShape } from './groove.js';
import type { DrawnSection, DrawnShape } from './drawn-shapes.js';
import {
  bandOutline,
  capOutline,
  grooveEdges,
  grooveOutlines,
  grooveSurfaces,
  turnedOver,
} from './outlines.js';
import { polygonArea, type Polygon } from './polygon.js';

const levelSteps = 60;

/** Both plates, cut along the preparation; each reaches as far back as it is thick. The right one is cut the wider. */
function plates(shape: GrooveShape): Polygon[] {
  const { thicknessMm: t, sides } = shape;
  const edges = grooveEdges(shape);
  const [face] = grooveSurfaces(shape);
  const reach = face.right + Math.max(t, 10);
  const whole = (edge: Polygon): Polygon =>
    sides === 2
      ? [...edge, ...turnedOver(edge, t).toReversed()]
      : [...edge, { x: edge.at(-1)?.x ?? 0, y: t }];
  const back = (x: number): Polygon => [
    { x, y: t },
    { x, y: 0 },
  ];
  return [
    [...whole(edges.left), ...back(-reach)],
    [...whole(edges.right), ...back(reach)],
  ];
}

/** Depth in mm at which the groove, filled from its root on each welded side, holds an area. */
function levelFor(shape: GrooveShape, areaMm2: number): number {
  const edges = grooveEdges(shape);
  let [high, low] = [0, shape.penetrationMm];
  for (let step = 0; step < levelSteps; step += 1) {
    const level = (high + low) / 2;
    const filled = polygonArea(bandOutline(edges, level, shape.penetrationMm));
    if (filled * shape.sides > areaMm2) high = level;
    else low = level;
  }
  return (high + low) / 2;
}

/** The surface of the filling at a depth, on every welded side. */
function surfaces(shape: GrooveShape, level: number): Polygon[] {
  const [right, left] = bandOutline(grooveEdges(shape), level, shape.penetrationMm).filter(
    ({ y }) => y === level,
  );
  if (!right || !left) return [];
  const line = [right, left];
  return shape.sides === 1 ? [line] : [line, turnedOver(line, shape.thicknessMm)];
}

/** What the settings lay: a level inside the groove, or a cap on it where they overfill it. */
function laidShapes(shape: GrooveShape, fillingMm2: number, laidMm2: number) {
  if (laidMm2 <= fillingMm2) {
    const level = levelFor(shape, laidMm2);
    return { lines: surfaces(shape, level), fillMm: shape.penetrationMm - level };
  }
  const [face, root] = grooveSurfaces(shape);
  const perSideMm2 = (laidMm2 - fillingMm2) / shape.sides;
  const widthMm = face.right - face.left;
  if (widthMm === 0) return { lines: [], fillMm: null };
  const cap = { heightMm: (1.5 * perSideMm2) / widthMm };
  const top = capOutline(face, cap, true);
  return {
    lines: shape.sides === 1 ? [top] : [top, capOutline(root, cap, false)],
    fillMm: null,
  };
}

/** A groove with its plates, filled from the root on each welded side. */
export function drawnGroove(
  groove: Groove,
  { laidAreaMm2, runs }: { laidAreaMm2: number | null; runs: number },
): { ok: true; section: DrawnSection } | { ok: false; refusal: ArgumentRefusal } {
  const found = grooveShape(groove);
  if (!found.ok) return found;
  const area = grooveArea(groove);
  if (!area.ok) return area;
  const { shape } = found;
  const fillingMm2 = area.value - area.parts.capsMm2;
  const laid = laidAreaMm2 === null ? null : laidShapes(shape, fillingMm2, laidAreaMm2);
  const edges = grooveEdges(shape);
  const preparations = [edges.left, edges.right].flatMap((edge) =>
    shape.sides === 1 ? [edge] : [edge, turnedOver(edge, shape.thicknessMm)],
  );
  const runLines = Array.from({ length: runs - 1 }, (_, index) =>
    surfaces(shape, levelFor(shape, (fillingMm2 * (index + 1)) / runs)),
  ).flat();
  const open = (role: DrawnShape['role'], lines: readonly Polygon[]) =>
    lines.map((points) => ({ role, points, closed: false }));
  const solid = (role: DrawnShape['role'], outlines: readonly Polygon[]) =>
    outlines.map((points) => ({ role, points, closed: true }));
  const shapes = [
    ...solid('part', plates(shape)),
    ...solid('metal', grooveOutlines(shape, groove)),
    ...open('preparation', preparations),
    ...open('run', runLines),
    ...open('laid', laid?.lines ?? []),
  ];
  const figures = {
    ...{ drawnAreaMm2: area.value, drawnThroatMm: null, drawnLegMm: null, laidAreaMm2 },
    ...{ laidThroatMm: null, laidLegMm: null, laidFillMm: laid?.fillMm ?? null },
  };
  return { ok: true, section: { shapes, figures } };
}
