import { describe, expect, it } from 'vitest';
import { cellSize, pictureOf } from './coverage-layout.js';

const cell = {
  ...{ position: 'PB', procedures: ['W r1'], people: ['W07'], welds: 0 },
  ...{ withoutProcedure: [] as string[], withoutPerson: [] as string[] },
};
const coverage = {
  ...{ process: '135', positions: ['PB', 'PF'], notPlaced: [] },
  cells: [
    { ...cell, fromMm: 12, toMm: null, procedures: [], withoutProcedure: ['X'], welds: 1 },
    { ...cell, fromMm: null, toMm: 3, procedures: [], people: [] },
    { ...cell, fromMm: 3, toMm: 12 },
    { ...cell, position: 'PF', fromMm: 3, toMm: 12, people: [] },
  ],
};

describe('the coverage picture', () => {
  it('puts thin before thick and one position under the other', () => {
    const { cells, limits, rows } = pictureOf(coverage);
    const [thick, thin, middle, upward] = cells;
    expect((thin?.x ?? 0) + cellSize.width).toBe(middle?.x);
    expect((middle?.x ?? 0) + cellSize.width).toBe(thick?.x);
    expect(upward).toMatchObject({ x: middle?.x, y: (middle?.y ?? 0) + cellSize.height });
    expect(limits.map(({ mm }) => mm)).toEqual([3, 12]);
    expect(limits[0]?.x).toBe(middle?.x);
    expect(rows.map(({ position }) => position)).toEqual(['PB', 'PF']);
  });

  it('tells who holds a step, and where a hole is', () => {
    const { cells } = pictureOf(coverage);
    expect(cells.map(({ hold }) => hold)).toEqual(['person', 'none', 'both', 'procedure']);
    expect(cells.map(({ hole }) => hole)).toEqual([true, false, false, false]);
  });

  it('holds all that it draws', () => {
    const { cells, width, height } = pictureOf(coverage);
    for (const { x, y } of cells) {
      expect(x + cellSize.width).toBeLessThanOrEqual(width);
      expect(y + cellSize.height).toBeLessThanOrEqual(height);
    }
  });
});
