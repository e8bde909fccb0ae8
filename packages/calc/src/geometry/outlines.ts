import type { FilletShape } from './fillet-section.js';
import { flankMm, grooveWidths, type GrooveCap, type GrooveShape } from './groove.js';
import { bulgedLine, type Point, type Polygon } from './polygon.js';

/** Straight pieces in which a curve is drawn; the area of a parabola so drawn is 1 / pieces^2 too small. */
const drawnPieces = 64;

/**
 * Outline of a fillet's metal in mm. Its root is at 0, 0; the standing part is to the left and above, its
 * lower edge lifted by the gap; the lying part is below.
 */
export function filletOutline(shape: FilletShape, pieces = drawnPieces): Polygon {
  const top = { x: 0, y: -(shape.legMm + shape.gapMm) };
  const toe = { x: shape.secondLegMm, y: 0 };
  return [{ x: 0, y: 0 }, top, ...bulgedLine(top, toe, shape.bulgeMm, pieces), toe];
}

/** How far a prepared plate stands back from the edge of the gap, from the face down to the penetration. */
function preparedEdge(shape: GrooveShape, pieces: number): { depth: number; back: number }[] {
  const { preparationDepthMm: depth, radiusMm: r, angleRad: b, penetrationMm } = shape;
  const flank = flankMm(shape);
  const tangent = r * Math.cos(b);
  const face = { depth: 0, back: tangent + flank * Math.tan(b) };
  const rounded = Array.from({ length: r > 0 ? pieces + 1 : 1 }, (_, index) => {
    const angle = b + (Math.PI / 2 - b) * (index / pieces);
    return r > 0
      ? { depth: depth - r * (1 - Math.sin(angle)), back: r * Math.cos(angle) }
      : { depth, back: 0 };
  });
  return [face, ...rounded, { depth: penetrationMm, back: 0 }];
}

const square = ({ penetrationMm }: GrooveShape) => [
  { depth: 0, back: 0 },
  { depth: penetrationMm, back: 0 },
];

/** Both edges of the groove from the face down, on the welded side that lies up. */
export interface GrooveEdges {
  left: Polygon;
  right: Polygon;
}

/** The right plate is prepared first, so that a bevel or J leaves the left one square. */
export function grooveEdges(shape: GrooveShape, pieces = drawnPieces): GrooveEdges {
  const half = shape.gapMm / 2;
  const prepared = shape.preparedPlates === 0 ? square(shape) : preparedEdge(shape, pieces);
  const left = shape.preparedPlates === 2 ? prepared : square(shape);
  return {
    left: left.map(({ depth, back }) => ({ x: -half - back, y: depth })),
    right: prepared.map(({ depth, back }) => ({ x: half + back, y: depth })),
  };
}

/** The same points seen from the far side of a plate. */
export function turnedOver(polygon: Polygon, thicknessMm: number): Polygon {
  return polygon.map(({ x, y }) => ({ x, y: thicknessMm - y }));
}

interface Surface {
  left: number;
  right: number;
  y: number;
}

/** Outline of a cap on a surface; it bulges up where `up`, down otherwise. */
export function capOutline(
  { left, right, y }: Surface,
  cap: GrooveCap,
  up: boolean,
  pieces = drawnPieces,
): Polygon {
  const over = (cap.widerByMm ?? 0) / 2;
  const [from, to] = [
    { x: left - over, y },
    { x: right + over, y },
  ];
  return [from, ...bulgedLine(from, to, up ? cap.heightMm : -cap.heightMm, pieces), to];
}

/** The groove between the edges and two depths, as a closed outline. */
export function bandOutline(edges: GrooveEdges, fromMm: number, toMm: number): Polygon {
  const left = clipped(edges.left, fromMm, toMm);
  const right = clipped(edges.right, fromMm, toMm);
  return [...left, ...right.toReversed()];
}

/** The piece of an edge between two depths; depths never fall along an edge. */
function clipped(edge: Polygon, fromMm: number, toMm: number): Point[] {
  const inside = edge.filter(({ y }) => y > fromMm && y < toMm);
  return [{ x: edgeAt(edge, fromMm), y: fromMm }, ...inside, { x: edgeAt(edge, toMm), y: toMm }];
}

/** Where an edge is at a depth between its ends; an edge has no step. */
function edgeAt(edge: Polygon, depth: number): number {
  const pairs = edge.slice(1).map((to, index) => [edge[index] as Point, to] as const);
  const around = pairs.find(([from, to]) => from.y <= depth && depth <= to.y && to.y > from.y);
  const [from, to] = around as (typeof pairs)[number];
  return from.x + ((depth - from.y) / (to.y - from.y)) * (to.x - from.x);
}

interface Caps {
  faceCap?: GrooveCap | undefined;
  rootCap?: GrooveCap | undefined;
}

/** Outlines of a groove's metal in mm: the filling of each welded side, then the caps. The face is at y = 0. */
export function grooveOutlines(
  shape: GrooveShape,
  { faceCap, rootCap }: Caps,
  pieces = drawnPieces,
): Polygon[] {
  const filling = bandOutline(grooveEdges(shape, pieces), 0, shape.penetrationMm);
  const sides = shape.sides === 1 ? [filling] : [filling, turnedOver(filling, shape.thicknessMm)];
  const [face, root] = grooveSurfaces(shape);
  const caps = [
    ...(faceCap ? [capOutline(face, faceCap, true, pieces)] : []),
    ...(rootCap ? [capOutline(root, rootCap, false, pieces)] : []),
  ];
  return [...sides, ...caps];
}

/** Where the groove meets the face and the far side. */
export function grooveSurfaces(shape: GrooveShape): [face: Surface, root: Surface] {
  const { faceMm, rootMm } = grooveWidths(shape);
  const half = shape.gapMm / 2;
  const surface = (widthMm: number, y: number): Surface => {
    const back = widthMm - shape.gapMm;
    const left = shape.preparedPlates === 2 ? -half - back / 2 : -half;
    return { left, right: left + widthMm, y };
  };
  return [surface(faceMm, 0), surface(rootMm, shape.thicknessMm)];
}
