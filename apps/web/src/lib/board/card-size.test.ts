import { describe, expect, it } from 'vitest';
import { cardHeightRem, minutesAhead, setUpShare } from './card-size.js';

describe('cardHeightRem', () => {
  it('grows with the planned minutes between its limits', () => {
    expect(cardHeightRem(10)).toBe(cardHeightRem(60));
    expect(cardHeightRem(240)).toBe(16);
    expect(cardHeightRem(10_000)).toBe(cardHeightRem(2_000));
    expect(cardHeightRem(300)).toBeGreaterThan(cardHeightRem(240));
  });
});

describe('setUpShare', () => {
  it('is a part of the whole and never more', () => {
    expect(setUpShare({ plannedMin: 100, setUpMin: 25 })).toBe(0.25);
    expect(setUpShare({ plannedMin: 20, setUpMin: 25 })).toBe(1);
    expect(setUpShare({ plannedMin: 0, setUpMin: 25 })).toBe(0);
  });
});

describe('minutesAhead', () => {
  it('adds up what stands before', () => {
    expect(minutesAhead([{ plannedMin: 30 }, { plannedMin: 45 }, { plannedMin: 5 }])).toEqual([
      0, 30, 75,
    ]);
  });
});
