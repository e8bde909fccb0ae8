import { describe, expect, it } from 'vitest';
import { beyondLimits } from './cell-limits.js';

const cell = { code: 'R1', loadKg: 250, reachMm: 1400 };

describe('a part beyond the limits of a cell', () => {
  it.each([
    [{ massKg: 250, reachMm: 1400 }, null],
    [{ massKg: 250.5, reachMm: 100 }, '250.5 kg, R1 carries 250 kg'],
    [{ massKg: 10, reachMm: 1401 }, '1401 mm out, R1 reaches 1400 mm'],
    [{ massKg: null, reachMm: null }, null],
  ])('%o: %s', (step, words) => {
    const found = beyondLimits(step, cell);
    if (words === null) expect(found).toBeNull();
    else expect(found).toContain(words);
  });

  it('cannot be said where the cell has no limit on file', () => {
    const step = { massKg: 9_000, reachMm: 9_000 };
    expect(beyondLimits(step, { code: 'M1', loadKg: null, reachMm: null })).toBeNull();
  });
});
