import { describe, expect, it } from 'vitest';
import { stackOf, totalHours } from './stack.js';

/** Own drawing rules; positions worked by hand. */
describe('stackOf', () => {
  const parts = [
    { key: 'arc', hours: 9 },
    { key: 'rework', hours: 0 },
    { key: 'setUp', hours: 3 },
  ];
  it('lays parts side by side on the scale of the longest bar', () => {
    expect(stackOf(parts, 24)).toEqual([
      { key: 'arc', hours: 9, left: 0, width: 0.375 },
      { key: 'setUp', hours: 3, left: 0.375, width: 0.125 },
    ]);
  });
  it('draws nothing where no hours are', () => {
    expect(stackOf(parts, 0)).toEqual([]);
  });
  it('sums a bar', () => {
    expect(totalHours(parts)).toBe(12);
  });
});
