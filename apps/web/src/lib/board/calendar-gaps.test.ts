import { describe, expect, it } from 'vitest';
import { gapHeightRem, gapsBetween, partsOf } from './calendar-gaps.js';

/** Two days of 06:00 to 14:00, in minutes. */
const windows = [
  { startMin: 360, endMin: 840, share: 1 },
  { startMin: 1800, endMin: 2280, share: 1 },
];

describe('gapsBetween', () => {
  it('gives what lies before, between and after the windows', () => {
    expect(gapsBetween(windows, { startMin: 0, endMin: 3000 })).toEqual([
      { startMin: 0, endMin: 360 },
      { startMin: 840, endMin: 1800 },
      { startMin: 2280, endMin: 3000 },
    ]);
  });
  it('cuts them to the span and gives none within a window', () => {
    expect(gapsBetween(windows, { startMin: 400, endMin: 500 })).toEqual([]);
    expect(gapsBetween(windows, { startMin: 900, endMin: 1000 })).toEqual([
      { startMin: 900, endMin: 1000 },
    ]);
    expect(gapsBetween(windows, { startMin: 840, endMin: 1800 })).toEqual([
      { startMin: 840, endMin: 1800 },
    ]);
  });
  it('sees none between windows that touch', () => {
    const touching = [windows[0]!, { startMin: 840, endMin: 900, share: 1 }];
    expect(gapsBetween(touching, { startMin: 360, endMin: 900 })).toEqual([]);
  });
  it('is one gap without any window', () => {
    expect(gapsBetween([], { startMin: 0, endMin: 60 })).toEqual([{ startMin: 0, endMin: 60 }]);
  });
});

describe('gapHeightRem', () => {
  it('keeps gaps to one scale above what words need', () => {
    const night = gapHeightRem({ startMin: 0, endMin: 16 * 60 });
    const weekend = gapHeightRem({ startMin: 0, endMin: 64 * 60 });
    expect(weekend / night).toBeCloseTo(4, 9);
    expect(gapHeightRem({ startMin: 0, endMin: 10 })).toBeLessThan(night);
  });
});

describe('partsOf', () => {
  const told = (...args: Parameters<typeof partsOf>) =>
    partsOf(...args).map(({ kind, startMin, endMin }) => [kind, startMin, endMin]);
  it('tells setting up, running and standing still apart in the order of the clock', () => {
    expect(told({ startMin: 800, endMin: 1860 }, { setUpShare: 0.25, windows })).toEqual([
      ['set-up', 800, 825],
      ['run', 825, 840],
      ['gap', 840, 1800],
      ['run', 1800, 1860],
    ]);
  });
  it('goes on setting up behind a gap', () => {
    expect(told({ startMin: 820, endMin: 1820 }, { setUpShare: 0.75, windows })).toEqual([
      ['set-up', 820, 840],
      ['gap', 840, 1800],
      ['set-up', 1800, 1810],
      ['run', 1810, 1820],
    ]);
  });
});
