import { describe, expect, it } from 'vitest';
import { cardHeightRem, setUpShare } from './card-size.js';

describe('cardHeightRem', () => {
  it('grows with the planned minutes between its limits', () => {
    expect(cardHeightRem(10)).toBe(cardHeightRem(60));
    expect(cardHeightRem(240)).toBe(16);
    expect(cardHeightRem(10_000)).toBe(cardHeightRem(2_000));
    expect(cardHeightRem(300)).toBeGreaterThan(cardHeightRem(240));
  });
});

describe('setUpShare', () => {
  const work = { plannedMin: 100, setUpMin: 25, goodCount: 0, scrapCount: 0 };
  it('is a part of the whole and never more', () => {
    expect(setUpShare(work)).toBe(0.25);
    expect(setUpShare({ ...work, plannedMin: 20 })).toBe(1);
    expect(setUpShare({ ...work, plannedMin: 0 })).toBe(0);
  });
  it('is behind once a part is made', () => {
    expect(setUpShare({ ...work, goodCount: 1 })).toBe(0);
    expect(setUpShare({ ...work, scrapCount: 1 })).toBe(0);
  });
});
