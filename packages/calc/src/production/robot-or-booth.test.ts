import fc from 'fast-check';
import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { breakEven } from './break-even.js';
import { expectedBatches, robotOrBooth } from './robot-or-booth.js';

const frame = {
  quantity: 12,
  robotFixedMin: 45,
  boothFixedMin: 15,
  robotUnitMin: 8,
  boothUnitMin: 18,
  programmingMin: 240,
  fixtureCost: 0,
  expectedBatches: 6,
  robotRatePerH: 60,
  boothRatePerH: 45,
  programmingRatePerH: 50,
  currency: 'EUR',
};

it('independent: break-even by cost, (45 - 11.25 + 240/6 x 50/60) / (13.50 - 8) = 12.197, so 13 parts', () => {
  const parts = partsOf(robotOrBooth(frame));
  expect(parts.preparationCost).toBeCloseTo(33.3333, 4);
  expect(parts.exactParts).toBeCloseTo(12.19697, 5);
  expect(parts.breakEvenParts).toBe(13);
  expect(parts.cheaper).toBe('booth');
  expect(partsOf(robotOrBooth({ ...frame, quantity: 13 })).cheaper).toBe('robot');
});

it('independent: twelve cost 174.33 at the robot and 173.25 at the booth', () => {
  // 45 + 12 x 8 + 33.33 = 174.33; 11.25 + 12 x 13.50 = 173.25.
  const result = robotOrBooth(frame);
  expect(partsOf(result).robotCost).toBeCloseTo(174.3333, 4);
  expect(partsOf(result).boothCost).toBeCloseTo(173.25, 10);
  expect(valueOf(result)).toBeCloseTo(-1.0833, 4);
  expect(result).toMatchObject({ unit: 'EUR/batch' });
});

it('independent: 45 + 12 x 8 + 40 = 181 min at the robot, 15 + 12 x 18 = 231 at the booth', () => {
  const { robotMin, boothMin } = partsOf(robotOrBooth(frame));
  expect(robotMin).toBe(181);
  expect(boothMin).toBe(231);
});

it('spreads a fixture over the same batches as the programming', () => {
  const { preparationCost } = partsOf(robotOrBooth({ ...frame, fixtureCost: 600 }));
  expect(preparationCost).toBeCloseTo(33.3333 + 100, 4);
});

it('independent: a chance of one half for four repeats spreads over three batches', () => {
  expect(valueOf(expectedBatches({ chanceOfReturn: 0.5, usualRepeats: 4 }))).toBe(3);
  expect(valueOf(expectedBatches({ chanceOfReturn: 0, usualRepeats: 4 }))).toBe(1);
});

it('has no break-even where the robot saves nothing per part, and none to wait for where it costs less at once', () => {
  const dear = partsOf(robotOrBooth({ ...frame, robotRatePerH: 120 }));
  expect(dear).toMatchObject({ breakEvenParts: null, exactParts: null, cheaper: 'booth' });
  const ready = { ...frame, programmingMin: 0, robotFixedMin: 5 };
  expect(partsOf(robotOrBooth(ready)).breakEvenParts).toBe(0);
  const alike = { ...ready, robotFixedMin: 15, robotUnitMin: 18, robotRatePerH: 45 };
  expect(partsOf(robotOrBooth(alike)).cheaper).toBe('same');
});

const minutes = fc.double({ min: 0.1, max: 500, noNaN: true });

it('independent: at one and the same rate its break-even is that of the times', () => {
  fc.assert(
    fc.property(minutes, minutes, minutes, minutes, minutes, (robotFixed, booth, a, b, program) => {
      fc.pre(Math.abs(a - b) > 0.1);
      const ways = {
        robotFixedMin: robotFixed,
        boothFixedMin: booth,
        robotUnitMin: Math.min(a, b),
        boothUnitMin: Math.max(a, b),
        programmingMin: program,
        expectedBatches: 3,
      };
      const rates = { robotRatePerH: 60, boothRatePerH: 60, programmingRatePerH: 60 };
      const byCost = partsOf(robotOrBooth({ ...frame, ...ways, ...rates }));
      const byTime = partsOf(breakEven(ways));
      expect(byCost.exactParts).toBeCloseTo(Math.max(0, byTime.exact), 6);
    }),
  );
});

refusesTheImpossible(
  {
    robotOrBooth: accepted(robotOrBooth, { ...frame, fixtureCost: 600 }),
    expectedBatches: accepted(expectedBatches, { chanceOfReturn: 0.5, usualRepeats: 4 }),
  },
  {
    nought: [
      ...['robotFixedMin', 'boothFixedMin', 'programmingMin', 'fixtureCost', 'robotRatePerH'],
      ...['boothRatePerH', 'programmingRatePerH', 'chanceOfReturn', 'usualRepeats'],
    ],
  },
);
