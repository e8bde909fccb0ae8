/** A point of a cross-section in mm: x to the right, y down, as screens draw. */
export interface Point {
  x: number;
  y: number;
}

export type Polygon = readonly Point[];

/** Area in mm2 that a closed polygon encloses, by Gauss's formula. */
export function polygonArea(polygon: Polygon): number {
  const doubled = polygon.reduce((sum, { x, y }, index) => {
    const next = polygon[(index + 1) % polygon.length] as Point;
    return sum + x * next.y - next.x * y;
  }, 0);
  return Math.abs(doubled) / 2;
}

/** A parabola's arc from one point to another with its crown `bulgeMm` to the left of the way; ends not in it. */
export function bulgedLine(from: Point, to: Point, bulgeMm: number, pieces: number): Point[] {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (bulgeMm === 0 || length === 0) return [];
  const normal = { x: (to.y - from.y) / length, y: (from.x - to.x) / length };
  return Array.from({ length: pieces - 1 }, (_, index) => {
    const along = (index + 1) / pieces;
    const out = 4 * along * (1 - along) * bulgeMm;
    return {
      x: from.x + along * (to.x - from.x) + out * normal.x,
      y: from.y + along * (to.y - from.y) + out * normal.y,
    };
  });
}
