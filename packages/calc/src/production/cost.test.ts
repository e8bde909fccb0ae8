import fc from 'fast-check';
import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { depositCost, payBack } from './deposit-cost.js';
import { costPerGoodPart } from './part-cost.js';

const kgPerLb = 0.45359237;
const litresPerCubicFoot = 28.316846592;

/** Figures of the ESAB weld-metal cost worksheet, in dollars and pounds, brought to the units of the function. */
const cored = {
  ratePerH: 45,
  depositionKgH: 10.2 * kgPerLb,
  operatorFactor: 0.45,
  wirePricePerKg: 1.78 / kgPerLb,
  efficiency: 0.87,
  gasFlowLMin: (40 * litresPerCubicFoot) / 60,
  gasPricePerL: 0.02 / litresPerCubicFoot,
  currency: 'USD',
};
const stick = {
  ...cored,
  depositionKgH: 5.4 * kgPerLb,
  operatorFactor: 0.3,
  wirePricePerKg: 0.85 / kgPerLb,
  efficiency: 0.64,
  gasFlowLMin: 0,
};

/** printed: ESAB weld-metal cost worksheet, $/lb, to the printed cent. */
it.each([
  ['cored wire', cored, 9.8, 2.05, 0.08, 11.93],
  ['stick electrodes', stick, 27.78, 1.33, 0, 29.11],
])('printed: a pound of weld metal with %s', (_what, inputs, labour, wire, gas, total) => {
  const result = depositCost(inputs);
  const parts = partsOf(result);
  const perLb = [parts.labour, parts.wire, parts.gas].map((each) => each * kgPerLb);
  [labour, wire, gas].forEach((printed, index) => {
    expect(Math.abs((perLb[index] ?? NaN) - printed)).toBeLessThan(0.006);
  });
  expect(Math.abs(valueOf(result) * kgPerLb - total)).toBeLessThan(0.006);
  expect(result).toMatchObject({ unit: 'USD/kg' });
});

/** printed: the same worksheet; 29.11 - 11.93 = 17.18 $/lb saved, 168.8 lb and 37 h until 2900 are back. */
it('printed: 2900 are paid back after 168.8 lb and 37 h', () => {
  const back = payBack({
    outlay: 2900,
    savingPerKg: 17.18 / kgPerLb,
    depositionKgH: cored.depositionKgH,
    operatorFactor: 0.45,
  });
  expect(partsOf(back).massKg / kgPerLb).toBeCloseTo(168.8, 1);
  expect(valueOf(back)).toBeGreaterThan(36.5);
  expect(valueOf(back)).toBeLessThan(37.5);
});

/** printed: ESAB course, lesson IX, 9.8. */
it('printed: 2800 at 7 $/lb with 7.4 lb/h at 50 % are paid back after 108 h', () => {
  const back = payBack({
    outlay: 2800,
    savingPerKg: 7 / kgPerLb,
    depositionKgH: 7.4 * kgPerLb,
    operatorFactor: 0.5,
  });
  expect(partsOf(back).massKg / kgPerLb).toBeCloseTo(400, 9);
  expect(Math.round(valueOf(back))).toBe(108);
});

/** Invented bracket: twelve, 50.75 min running, 40 min of set-up and first piece, 1.77 kg of wire, 356 l of gas. */
const bracket = {
  goodParts: 12,
  setUpMin: 40,
  preparationShare: 0,
  labourMin: 50.75,
  labourRatePerH: 42,
  cellMin: 50.75,
  cellRatePerH: 18,
  wireKg: 1.7702,
  wirePricePerKg: 3.1,
  gasL: 356.3,
  gasPricePerL: 0.004,
  tips: 0,
  tipPrice: 1.4,
  reworkMin: 0,
  reworkMaterial: 0,
  currency: 'EUR',
};

it('independent: invented example, labour 63.53, cell 27.23, wire 5.49 and gas 1.43 make 97.67, 8.14 each', () => {
  // Set-up 40 min x (42 + 18) / 60 = 40; running 50.75 min: 35.525 labour, 15.225 cell.
  const result = costPerGoodPart(bracket);
  const parts = partsOf(result);
  expect(parts.batch).toBeCloseTo(97.67, 1);
  expect(valueOf(result)).toBeCloseTo(8.14, 2);
  expect(parts.setUp * 12).toBeCloseTo(40, 10);
  expect(parts.labour * 12).toBeCloseTo(35.525, 10);
  expect(parts.cell * 12).toBeCloseTo(15.225, 10);
  expect(parts.wire * 12).toBeCloseTo(5.49, 2);
  expect(parts.gas * 12).toBeCloseTo(1.43, 2);
});

it('independent: one scrapped and one reworked part make the eleven good ones dearer', () => {
  // 97.66 + 20 min x 42/60 + 2.20 = 113.86 over 11; two tips at 1.40 on top: 116.66.
  const bad = { ...bracket, goodParts: 11, reworkMin: 20, reworkMaterial: 2.2, tips: 2 };
  const result = costPerGoodPart(bad);
  expect(partsOf(result).rework * 11).toBeCloseTo(16.2, 10);
  expect(partsOf(result).tips * 11).toBeCloseTo(2.8, 10);
  expect(valueOf(result)).toBeCloseTo(10.606, 3);
});

it('refuses a batch without a good part, and a currency that is no label', () => {
  expect(costPerGoodPart({ ...bracket, goodParts: 0 })).toMatchObject({
    refusal: { argument: 'goodParts', given: 0 },
  });
  for (const currency of ['', 'a currency', 7 as unknown as string]) {
    expect(costPerGoodPart({ ...bracket, currency })).toMatchObject({
      refusal: { argument: 'currency', given: currency },
    });
  }
});

const amount = fc.double({ min: 0, max: 10_000, noNaN: true });
const anyBatch = fc.record({
  goodParts: fc.integer({ min: 1, max: 500 }),
  ...Object.fromEntries(
    Object.keys(bracket)
      .filter((key) => !['goodParts', 'currency'].includes(key))
      .map((key) => [key, amount]),
  ),
});

it('independent: parts of the cost of a good part sum to the whole', () => {
  fc.assert(
    fc.property(anyBatch, (batch) => {
      const result = costPerGoodPart({ ...bracket, ...batch });
      const { batch: total, ...each } = partsOf(result);
      const sum = Object.values(each).reduce((whole, part) => whole + part, 0);
      expect(sum / (valueOf(result) || 1)).toBeCloseTo(valueOf(result) === 0 ? 0 : 1, 9);
      expect(valueOf(result) * batch.goodParts).toBeCloseTo(total, 3);
    }),
  );
});

const nothing = [
  ...['setUpMin', 'preparationShare', 'labourMin', 'labourRatePerH', 'cellMin', 'cellRatePerH'],
  ...['wireKg', 'wirePricePerKg', 'gasL', 'gasPricePerL', 'tips', 'tipPrice', 'reworkMin'],
  ...['reworkMaterial', 'ratePerH', 'gasFlowLMin', 'outlay'],
];
refusesTheImpossible(
  {
    costPerGoodPart: accepted(costPerGoodPart, bracket),
    depositCost: accepted(depositCost, cored),
    payBack: accepted(payBack, {
      outlay: 2900,
      savingPerKg: 38,
      depositionKgH: 4.6,
      operatorFactor: 0.45,
    }),
  },
  { nought: nothing },
);
