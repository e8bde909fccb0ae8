import fc from 'fast-check';
import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { learningTime } from './learning-curve.js';
import { operatorFactor, taskTime, usualOperatorFactors } from './operator-factor.js';
import { fromPastRuns } from './past-runs.js';
import { taktTime } from './takt.js';
import { batchYield, partsToStart } from './yield.js';

/** printed: Wideman, appendix 2, cumulative average at 80 %: the second unit takes 60 %, the average of 4 is 64 %. */
it('printed: Wright at 80 %, unit 2 takes 60 and the average of four is 64', () => {
  const run = { firstMin: 100, rate: 0.8, falls: 'average' } as const;
  expect(partsOf(learningTime({ ...run, count: 2 })).unitMin).toBeCloseTo(60, 9);
  expect(partsOf(learningTime({ ...run, count: 4 })).averageMin).toBeCloseTo(64, 9);
});

/** printed: business-analysis-made-easy.com, learning curve: 50, 40 and 32 for units 1, 2 and 4 at 80 %. */
it('printed: Crawford at 80 %, 50 then 40 then 32', () => {
  const units = [1, 2, 4].map(
    (count) => partsOf(learningTime({ firstMin: 50, rate: 0.8, falls: 'unit', count })).unitMin,
  );
  [50, 40, 32].forEach((printed, index) => expect(units[index]).toBeCloseTo(printed, 9));
});

it('independent: exponent log2(0.8) = -0.321928; 90 % brings the average of 15 parts to 0.662568', () => {
  // The rate of 90 % for repetitive welding: fas.org, learning curve calculator.
  const eighty = learningTime({ firstMin: 1, rate: 0.8, count: 1, falls: 'unit' });
  expect(partsOf(eighty).exponent).toBeCloseTo(-0.321928, 6);
  const welding = learningTime({ firstMin: 1, rate: 0.9, count: 15, falls: 'average' });
  expect(partsOf(welding).averageMin).toBeCloseTo(0.662568, 6);
});

it('independent: Crawford adds its units, 50 + 40 + 35.10 + 32 = 157.10', () => {
  const four = learningTime({ firstMin: 50, rate: 0.8, falls: 'unit', count: 4 });
  expect(valueOf(four)).toBeCloseTo(157.1049, 3);
  expect(partsOf(four).averageMin).toBeCloseTo(39.2762, 3);
});

it('never takes longer than without practice, and no practice changes nothing', () => {
  const rate = fc.double({ min: 0.5, max: 1, noNaN: true });
  const falls = fc.constantFrom('unit' as const, 'average' as const);
  fc.assert(
    fc.property(rate, fc.integer({ min: 1, max: 500 }), falls, (share, count, which) => {
      const run = { firstMin: 10, count, falls: which };
      expect(valueOf(learningTime({ ...run, rate: share }))).toBeLessThanOrEqual(10 * count + 1e-6);
      expect(valueOf(learningTime({ ...run, rate: 1 }))).toBeCloseTo(10 * count, 6);
    }),
  );
});

it('refuses a learning curve that says not what falls', () => {
  const run = { firstMin: 10, rate: 0.9, count: 4, falls: 'both' as 'unit' };
  expect(learningTime(run)).toMatchObject({ refusal: { argument: 'falls', given: 'both' } });
});

/** printed: Handbook of Structural Steel Connection Design and Details, p. 231; ESAB worksheet 30, 45 and 60-80 %. */
it.each([
  ['stick', 30, 30],
  ['semiAutomatic', 40, 45],
  ['mechanised', 50, 50],
  ['automatic', 60, 80],
] as const)('printed: usual operator factor %s', (way, lowPct, highPct) => {
  expect(usualOperatorFactors[way]).toEqual({ lowPct, highPct });
});

it('independent: 10 min of arc at an operator factor of 0.3 are 33.3 min, and back', () => {
  const whole = valueOf(taskTime({ arcMin: 10, operatorFactor: 0.3 }));
  expect(whole).toBeCloseTo(33.3333, 4);
  expect(valueOf(operatorFactor({ arcMin: 10, wholeMin: whole, over: 'task' }))).toBeCloseTo(
    0.3,
    9,
  );
});

/** printed: arcsolinc.com, article on robot efficiency. */
it('printed: 7 h at 85 % are 21 420 s, 357 parts at a takt of 60 s', () => {
  const availableMin = 7 * 60 * 0.85;
  expect(availableMin * 60).toBeCloseTo(21_420, 6);
  expect(valueOf(taktTime({ availableMin, demand: 357 }))).toBeCloseTo(60, 9);
});

it('echoes over what the operator factor was taken, and refuses more arc than time', () => {
  const shift = { arcMin: 60, wholeMin: 450, over: 'shift' } as const;
  expect(operatorFactor(shift)).toMatchObject({ inputs: { over: 'shift' } });
  expect(operatorFactor({ ...shift, arcMin: 451 })).toMatchObject({
    refusal: { argument: 'arcMin', allowed: 'not more than the whole, 450 min' },
  });
  expect(operatorFactor({ ...shift, over: 'week' as 'shift' })).toMatchObject({
    refusal: { argument: 'over', allowed: 'task or shift' },
  });
});

it('independent: the middle of 4.2, 4.6 and 5.0 is 4.6; a band, at places 0.2 and 1.8, from three runs on', () => {
  expect(valueOf(fromPastRuns({ unitMin: [4.6] }))).toBe(4.6);
  const two = fromPastRuns({ unitMin: [4.6, 4.2] });
  expect(valueOf(two)).toBeCloseTo(4.4, 10);
  expect(partsOf(two).band).toBeNull();
  expect(two).toMatchObject({ warnings: [{ code: 'tooFewRuns', given: 2 }] });
  const three = fromPastRuns({ unitMin: [5.0, 4.2, 4.6] });
  expect(valueOf(three)).toBe(4.6);
  expect(three).toMatchObject({ warnings: [], parts: { runs: 3 } });
  // Places 0.2 and 1.8 of 4.2, 4.6, 5.0.
  expect(partsOf(three).band?.lowMin).toBeCloseTo(4.28, 10);
  expect(partsOf(three).band?.highMin).toBeCloseTo(4.92, 10);
});

it('independent: eleven runs from 10 to 20 min have 15 in the middle, from 11 to 19', () => {
  const unitMin = [13, 10, 20, 11, 19, 12, 18, 14, 17, 15, 16];
  const runs = fromPastRuns({ unitMin });
  expect(valueOf(runs)).toBe(15);
  expect(partsOf(runs).band).toEqual({ lowMin: 11, highMin: 19 });
  expect(unitMin[0]).toBe(13);
});

it('one freak run does not move the median past its neighbours', () => {
  expect(valueOf(fromPastRuns({ unitMin: [4.2, 4.3, 4.4, 4.5, 900] }))).toBe(4.4);
});

it('refuses no runs at all, and names the run that is none', () => {
  expect(fromPastRuns({ unitMin: [] })).toMatchObject({ refusal: { argument: 'unitMin' } });
  for (const given of [NaN, 0, -1, Infinity]) {
    expect(fromPastRuns({ unitMin: [4.2, given] })).toMatchObject({
      refusal: { argument: 'unitMin[1]', given },
    });
  }
});

it('the band holds the median, whatever the runs', () => {
  const runs = fc.array(fc.double({ min: 0.01, max: 1000, noNaN: true }), {
    minLength: 3,
    maxLength: 40,
  });
  fc.assert(
    fc.property(runs, (unitMin) => {
      const result = fromPastRuns({ unitMin });
      const { band } = partsOf(result);
      expect(band?.lowMin).toBeLessThanOrEqual(valueOf(result) + 1e-9);
      expect(band?.highMin).toBeGreaterThanOrEqual(valueOf(result) - 1e-9);
    }),
  );
});

it('independent: 12 made, 10 good at once, 1 after rework: yield 11/12, first pass 10/12', () => {
  const twelve = { madeParts: 12, goodFirstTime: 10, goodAfterRework: 1 };
  expect(valueOf(batchYield(twelve))).toBeCloseTo(11 / 12, 12);
  expect(partsOf(batchYield(twelve)).firstPassYield).toBeCloseTo(10 / 12, 12);
  expect(partsOf(batchYield(twelve)).scrapParts).toBe(1);
  expect(batchYield({ ...twelve, goodAfterRework: 3 })).toMatchObject({
    refusal: { argument: 'goodFirstTime', given: 10 },
  });
});

it('independent: 12 good ones at 0.8 take 15 starts, 13 take 17', () => {
  expect(valueOf(partsToStart({ wantedParts: 12, yieldShare: 0.8 }))).toBe(15);
  expect(valueOf(partsToStart({ wantedParts: 13, yieldShare: 0.8 }))).toBe(17);
});

it('starts exactly as many as the yield takes, no more by rounding', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 999 }), (a, b) => {
      const wantedParts = Math.min(a, b);
      const made = Math.max(a, b);
      fc.pre(wantedParts / made >= 0.01);
      const start = partsToStart({ wantedParts, yieldShare: wantedParts / made });
      expect(valueOf(start)).toBe(made);
    }),
  );
});

refusesTheImpossible(
  {
    learningTime: accepted(learningTime, { firstMin: 10, rate: 0.9, count: 12, falls: 'unit' }),
    operatorFactor: accepted(operatorFactor, { arcMin: 10, wholeMin: 30, over: 'task' }),
    taskTime: accepted(taskTime, { arcMin: 10, operatorFactor: 0.3 }),
    batchYield: accepted(batchYield, { madeParts: 12, goodFirstTime: 10, goodAfterRework: 1 }),
    partsToStart: accepted(partsToStart, { wantedParts: 12, yieldShare: 0.9 }),
  },
  { nought: ['arcMin', 'goodFirstTime', 'goodAfterRework'] },
);
