import { describe, expect, it } from 'vitest';
import { stripScale, withinBand } from './strip-scale.js';

/** Own drawing rules. */
describe('independent, positions worked by hand: stripScale', () => {
  it('leaves a tenth on each side of the band', () => {
    const scale = stripScale({ min: 8, max: 10, set: 9, readings: [] });
    expect(scale?.from).toBeCloseTo(7.8, 10);
    expect(scale?.to).toBeCloseTo(10.2, 10);
    expect(scale?.at(9)).toBeCloseTo(0.5, 10);
  });
  it('stretches for a reading far outside instead of cutting it off', () => {
    const scale = stripScale({ min: 450, max: 600, set: 520, readings: [300] });
    expect(scale?.at(300)).toBeGreaterThan(0);
    expect(scale?.at(600)).toBeLessThan(1);
  });
  it('draws a lone value in the middle and nothing for nothing', () => {
    expect(stripScale({ min: null, max: null, set: 100, readings: [] })?.at(100)).toBeCloseTo(
      0.5,
      10,
    );
    expect(stripScale({ min: null, max: null, set: 100, readings: [] })).toMatchObject({
      ...{ from: 90, to: 110 },
    });
    expect(stripScale({ min: null, max: null, set: 0, readings: [] })).toMatchObject({
      ...{ from: -0.1, to: 0.1 },
    });
    expect(stripScale({ min: null, max: null, set: null, readings: [] })).toBeNull();
  });
});

describe('independent, limits by hand: withinBand', () => {
  it('takes limits as inclusive and open ends as open', () => {
    expect(withinBand(12, 3, 12)).toBe(true);
    expect(withinBand(12.1, 3, 12)).toBe(false);
    expect(withinBand(12.1, 3, null)).toBe(true);
    expect(withinBand(2.9, 3, null)).toBe(false);
    expect(withinBand(3, 3, 12)).toBe(true);
    expect(withinBand(-40, null, 12)).toBe(true);
  });
});
