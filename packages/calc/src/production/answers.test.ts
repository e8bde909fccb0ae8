import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { askedByPeriod } from './asked-load.js';
import { breakEven } from './break-even.js';
import { batchGas, spoolForecast } from './consumables.js';
import { cycleTime } from './cycle.js';
import { learningTime } from './learning-curve.js';
import { operatorFactor } from './operator-factor.js';
import { fromPastRuns } from './past-runs.js';
import { robotOrBooth } from './robot-or-booth.js';
import { stockThroughQueue } from './stock-walk.js';
import { weekMeasures } from './week.js';
import { batchYield } from './yield.js';

const welds = [{ lengthMm: 960, count: 2, travelMmMin: 480 }];
const cycle = { welds, startStopS: 3, airMovesS: 10, cleaningS: 4, loadS: 60 };

refusesTheImpossible(
  {
    cycleTime: accepted((args: typeof cycle) => cycleTime({ ...args, stations: 2 }), cycle),
    spoolForecast: accepted(spoolForecast, {
      ...{ onFeederKg: 3, batches: [{ perPartG: 120, quantity: 10 }] },
    }),
    learningTime: accepted(learningTime, { firstMin: 20, rate: 0.9, count: 8, falls: 'unit' }),
    fromPastRuns: accepted(fromPastRuns, { unitMin: [4, 5, 6] }),
  },
  {
    nought: ['startStopS', 'airMovesS', 'cleaningS', 'loadS', 'onFeederKg'],
  },
);

it('independent, by hand: 2 x 120 s of arc, 6 s of starts and 14 s of moves beside or before 60 s of loading', () => {
  expect(valueOf(cycleTime({ ...cycle, stations: 2 }))).toBe(260);
  const one = cycleTime({ ...cycle, stations: 1 });
  expect(valueOf(one)).toBe(320);
  expect(partsOf(one)).toEqual({ arcS: 240, robotS: 260, weldCount: 2 });
  expect(one).toMatchObject({ unit: 's', sources: ['timeSum'] });
});

it('refuses three stations, a cycle without welds and a weld of no length, each in words', () => {
  expect(cycleTime({ ...cycle, stations: 3 as 2 })).toEqual({
    ok: false,
    refusal: { argument: 'stations', given: 3, allowed: '1 or 2' },
  });
  expect(cycleTime({ ...cycle, welds: [], stations: 1 })).toEqual({
    ok: false,
    refusal: { argument: 'welds', given: [], allowed: 'one weld or more' },
  });
  const flat = [...welds, { ...welds[0]!, lengthMm: 0 }];
  expect(cycleTime({ ...cycle, welds: flat, stations: 1 })).toMatchObject({
    refusal: { argument: 'welds[1].lengthMm', given: 0 },
  });
});

it('independent, by hand: gas of 2 welds with 3 s each around 60 s of arc is 15 x 66 / 60 = 16.5 l', () => {
  const gas = { gasFlowLMin: 15, arcS: 60, weldCount: 2, prePostS: 3, quantity: 1 };
  expect(valueOf(batchGas(gas))).toBeCloseTo(16.5, 9);
  expect(partsOf(batchGas(gas)).partsPossible).toBeNull();
  expect(partsOf(batchGas({ ...gas, availableL: 33 })).partsPossible).toBe(2);
});

it('independent, by hand: what halves with each doubling takes no second minute for its second part', () => {
  const halving = { firstMin: 20, rate: 0.5, falls: 'average' as const };
  expect(partsOf(learningTime({ ...halving, count: 1 })).unitMin).toBe(20);
  expect(partsOf(learningTime({ ...halving, count: 2 })).unitMin).toBeCloseTo(0, 9);
  const refusal = (inputs: object) => {
    const odd = learningTime({ ...halving, count: 2, ...inputs });
    return odd.ok ? null : odd.refusal.allowed;
  };
  expect(refusal({ falls: 'never' })).toBe('unit or average');
  expect(refusal({ count: 1.5 })).toBe('a whole number from 1 to 100000 parts');
  expect(refusal({ rate: 2 })).toBe('a number from 0.5 to 1');
});

it('independent: a whole week in hours is its minutes over 60, and no arc above the running time is warned of', () => {
  const week = { plannedMin: 2400, staffedMin: 2100, runningMin: 600, arcMin: 600, lost: {} };
  expect(weekMeasures(week)).toMatchObject({
    ...{ plannedH: 40, staffedH: 35, runningH: 10, arcH: 10, warnings: [] },
    sources: ['arcShare', 'iso22400'],
  });
  for (const argument of ['plannedMin', 'staffedMin', 'runningMin'])
    expect(weekMeasures({ ...week, [argument]: -1 })).toMatchObject({ refusal: { argument } });
});

it('says in words what it takes, at its very limits', () => {
  const factor = { arcMin: 60, wholeMin: 60, over: 'task' as const };
  expect(valueOf(operatorFactor(factor))).toBe(1);
  expect(operatorFactor({ ...factor, arcMin: 61 })).toMatchObject({
    refusal: { argument: 'arcMin', allowed: 'not more than the whole, 60 min' },
  });
  const made = { madeParts: 10, goodFirstTime: 8, goodAfterRework: 2 };
  expect(valueOf(batchYield(made))).toBe(1);
  expect(batchYield({ ...made, goodAfterRework: 3 })).toMatchObject({
    refusal: { allowed: 'with those good after rework not more than the 10 parts made' },
  });
  const times = { robotFixedMin: 40, boothFixedMin: 20, programmingMin: 0, expectedBatches: 1 };
  expect(breakEven({ ...times, robotUnitMin: 5, boothUnitMin: 5 })).toMatchObject({
    refusal: {
      ...{ argument: 'robotUnitMin', given: 5 },
      allowed: "less than the booth's 5 min per part, else no quantity breaks even",
    },
  });
  expect(fromPastRuns({ unitMin: [] })).toMatchObject({
    refusal: { argument: 'unitMin', allowed: 'one past run or more' },
  });
});

it('independent: where robot and booth cost the same, neither is cheaper and no part breaks even', () => {
  const alike = {
    ...{ quantity: 10, robotFixedMin: 30, boothFixedMin: 30, robotUnitMin: 6, boothUnitMin: 6 },
    ...{ programmingMin: 0, fixtureCost: 0, expectedBatches: 1, currency: 'EUR' },
    ...{ robotRatePerH: 60, boothRatePerH: 60, programmingRatePerH: 60 },
  };
  expect(partsOf(robotOrBooth(alike))).toMatchObject({ cheaper: 'same', breakEvenParts: null });
  const refused = (currency: unknown) => robotOrBooth({ ...alike, currency: currency as 'EUR' });
  for (const currency of ['', 'EUR1', '--', 'DOLLARS', ['EUR']])
    expect(refused(currency)).toMatchObject({
      refusal: { argument: 'currency', allowed: 'a code or sign such as EUR' },
    });
  expect(refused('€').ok).toBe(true);
});

it('names what its figures rest on', () => {
  expect(askedByPeriod({ openMin: [1], work: [] })).toMatchObject({ sources: ['dueLoad'] });
  const walk = { inStore: 1, onCell: {}, draws: [] };
  expect(stockThroughQueue(walk)).toMatchObject({ sources: ['stockBalance'] });
  expect(stockThroughQueue({ ...walk, inStore: -1 })).toMatchObject({
    refusal: { allowed: 'a number from 0 to 1000000000000' },
  });
  expect(askedByPeriod({ openMin: [1], work: [{ workMin: 1, dueIn: -1 }] })).toMatchObject({
    refusal: { allowed: 'a whole number from 0 to 1000' },
  });
});
