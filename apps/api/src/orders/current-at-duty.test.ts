import { describe, expect, it } from 'vitest';
import { currentAtDuty, type RatedCell } from './current-at-duty.js';
import type { StepTimes } from './planned-time-of.js';

/** An invented part: 960 mm of fillet in 8 welds at 520 mm/min, 110.8 s of arc in a cycle of 158.8 s. */
const step: StepTimes = {
  ...{ setUpMin: 25, firstPieceMin: 15, unitMin: 5, cellKind: 'robot' },
  ...{ startStopS: 1.5, airMovesS: 30, cleaningS: 6, loadS: 95 },
  welds: [{ lengthMm: 120, count: 8 } as StepTimes['welds'][number]],
  setUps: [{ cellId: 'R2', travelMmMin: 520, wireSpeedMMin: 9, wireDiameterMm: 1.2 }],
};
const cell: RatedCell = {
  ...{ id: 'R2', stations: 2, sourceRatingA: null, sourceRatingPct: null },
  ...{ torchRatingA: 250, torchRatingPct: 60, torchMaxA: 300 },
};

describe('what a cell carries at the duty of a step', () => {
  it('independent, by hand: is the rating of the torch at the duty of two stations', () => {
    // 110.8 / 158.8 = 69.8 %; 250 x sqrt(60 / 69.8) = 231.8
    expect(currentAtDuty(step, cell)).toMatchObject({ of: 'torch' });
    expect(currentAtDuty(step, cell)?.allowedA).toBeCloseTo(231.8, 1);
    expect(currentAtDuty(step, cell)?.dutyPct).toBeCloseTo(69.8, 1);
  });

  it('is what the weaker of torch and power source carries', () => {
    // 220 x sqrt(40 / 69.8) = 166.6
    const weak = currentAtDuty(step, { ...cell, sourceRatingA: 220, sourceRatingPct: 40 });
    expect(weak).toMatchObject({ of: 'power source' });
    expect(weak?.allowedA).toBeCloseTo(166.6, 1);
    const strong = currentAtDuty(step, { ...cell, sourceRatingA: 400, sourceRatingPct: 100 });
    expect(strong?.of).toBe('torch');
  });

  it('takes a source to its rating and no further, and a torch to its maximum', () => {
    const one = { ...cell, stations: 1, torchRatingPct: 100, torchMaxA: 280 };
    expect(currentAtDuty(step, one)?.allowedA).toBe(280);
    const source = { ...one, torchRatingA: null, sourceRatingA: 260, sourceRatingPct: 60 };
    expect(currentAtDuty(step, source)).toMatchObject({ allowedA: 260, of: 'power source' });
  });

  it('cannot be said without a rating, a kept travel or a time', () => {
    expect(currentAtDuty(step, { ...cell, torchRatingA: null })).toBeNull();
    expect(currentAtDuty(step, { ...cell, id: 'R9' })).toBeNull();
    expect(currentAtDuty({ ...step, loadS: 0 }, cell)).toBeNull();
  });
});
