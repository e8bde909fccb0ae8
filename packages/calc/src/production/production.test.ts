import { expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import { breakEven } from './break-even.js';
import { batchGas, batchWire, spoolForecast } from './consumables.js';
import { arcTime, batchTime, cycleTime } from './cycle.js';
import { taktShortfall, taktTime } from './takt.js';

/** Invented bracket: eight fillets a4, 960 mm in all, at 520 mm/min. */
const bracket = {
  welds: [{ lengthMm: 120, count: 8, travelMmMin: 520 }],
  startStopS: 1.5,
  airMovesS: 30,
  cleaningS: 6,
  loadS: 95,
};
const cycleS = valueOf(cycleTime({ ...bracket, stations: 1 }));
const { arcS, weldCount } = partsOf(cycleTime({ ...bracket, stations: 1 }));

it('independent: invented example, 960 mm at 520 mm/min is 110.8 s of arc', () => {
  // 960 / 520 = 1.84615 min x 60 = 110.77 s.
  expect(valueOf(arcTime({ lengthMm: 960, travelMmMin: 520 }))).toBeCloseTo(110.77, 2);
  expect(arcS).toBeCloseTo(110.77, 2);
});

it('independent: invented example, robot time 158.8 s, with loading 253.8 s at one station', () => {
  // 110.77 + 8 x 1.5 + 30 + 6 = 158.77; + 95 = 253.77.
  const { robotS } = partsOf(cycleTime({ ...bracket, stations: 1 }));
  expect(robotS).toBeCloseTo(158.77, 2);
  expect(cycleS).toBeCloseTo(253.77, 2);
});

it('independent: two stations take the longer of robot, 158.77 s, and loading', () => {
  expect(valueOf(cycleTime({ ...bracket, stations: 2 }))).toBeCloseTo(158.77, 2);
  expect(valueOf(cycleTime({ ...bracket, stations: 2, loadS: 300 }))).toBe(300);
});

it('independent: invented example, twelve pieces take 50.8 min of running and 90.8 min with set-up and first piece', () => {
  // 12 x 253.77 / 60 = 50.75; + 25 + 15 = 90.75.
  const batch = batchTime({
    setUpMin: 25,
    firstPieceMin: 15,
    quantity: 12,
    cycleS,
    yieldShare: 1,
  });
  expect(partsOf(batch).runMin).toBeCloseTo(50.75, 2);
  expect(valueOf(batch)).toBeCloseTo(90.75, 2);
});

it('independent: 12 good at a yield of 0.8 run 12 / 0.8 = 15 cycles of a minute', () => {
  const batch = { setUpMin: 0, firstPieceMin: 0, quantity: 12, cycleS: 60, yieldShare: 0.8 };
  expect(valueOf(batchTime(batch))).toBeCloseTo(15, 10);
});

const wire = { wireDiameterMm: 1.2, wireSpeedMMin: 9, arcS };

it('independent: invented example, 147.5 g of wire each, 1.77 kg for twelve, 21 parts from 3.2 kg', () => {
  // 9 x 110.77 / 60 = 16.615 m x 8.878 g/m = 147.51 g; x 12 = 1.770 kg; 3200 / 147.51 = 21.7.
  const batch = batchWire({ ...wire, quantity: 12, onFeederKg: 3.2 });
  expect(partsOf(batch).perPartG).toBeCloseTo(147.51, 2);
  expect(valueOf(batch)).toBeCloseTo(1.77, 3);
  expect(partsOf(batch).partsPossible).toBe(21);
});

it('independent: invented example, twelve and fifteen want 3.98 kg, more than the 3.2 kg on the feeder', () => {
  // 27 x 147.51 g = 3.983 kg.
  expect(valueOf(batchWire({ ...wire, quantity: 27 }))).toBeCloseTo(3.983, 3);
});

it('independent: invented example, 3.2 kg reach 21 of 27 parts; the spool is changed at part 10 of the second batch', () => {
  // 147.5 g x 27 = 3.98 kg. 12 x 147.5 = 1770 g leave 1430 g: 9 of the 15, so 12 + 9 = 21, the 22nd is short.
  const forecast = spoolForecast({
    onFeederKg: 3.2,
    batches: [
      { perPartG: 147.5, quantity: 12 },
      { perPartG: 147.5, quantity: 15 },
    ],
  });
  expect(valueOf(forecast)).toBeCloseTo(3.9825, 9);
  expect(partsOf(forecast)).toEqual({ goodFor: 21, changeAt: { batch: 1, part: 10 } });
});

it('foretells no spool change where the wire reaches, to the last gram', () => {
  const batches = [
    { perPartG: 100, quantity: 3 },
    { perPartG: 25, quantity: 8 },
  ];
  const at = (onFeederKg: number) => partsOf(spoolForecast({ onFeederKg, batches }));
  expect(at(0.5)).toEqual({ goodFor: 11, changeAt: null });
  expect(at(0.499)).toEqual({ goodFor: 10, changeAt: { batch: 1, part: 8 } });
  // 299 g are good for two parts of 100 g; what is left over does not count for lighter parts further on.
  expect(at(0.299)).toEqual({ goodFor: 2, changeAt: { batch: 0, part: 3 } });
  expect(at(0)).toEqual({ goodFor: 0, changeAt: { batch: 0, part: 1 } });
});

it('refuses a batch without parts or a part without wire', () => {
  const forecast = (perPartG: number, quantity: number) =>
    spoolForecast({ onFeederKg: 1, batches: [{ perPartG, quantity }] }).ok;
  expect([forecast(0, 1), forecast(1, 0), forecast(1, 1)]).toEqual([false, false, true]);
});

it('does not fall a part short of an exact stock, and does not guess an unknown one', () => {
  const perPartKg = valueOf(batchWire({ ...wire, quantity: 1 }));
  for (const parts of [3, 7, 29, 61]) {
    const batch = batchWire({ ...wire, quantity: 1, onFeederKg: perPartKg * parts });
    expect(partsOf(batch).partsPossible).toBe(parts);
  }
  expect(partsOf(batchWire({ ...wire, quantity: 1 })).partsPossible).toBeNull();
  expect(partsOf(batchWire({ ...wire, quantity: 1, onFeederKg: 0 })).partsPossible).toBe(0);
});

const gas = { gasFlowLMin: 15, arcS, weldCount, prePostS: 1 };

it('independent: invented example, 29.7 l of gas each, 356 l for twelve', () => {
  // 110.77 + 8 x 1 = 118.77 s x 15 / 60 = 29.69 l; x 12 = 356.3.
  const batch = batchGas({ ...gas, quantity: 12, availableL: 600 });
  expect(partsOf(batch).perPartL).toBeCloseTo(29.69, 2);
  expect(valueOf(batch)).toBeCloseTo(356.3, 1);
  // 600 / 29.69 = 20.2.
  expect(partsOf(batch).partsPossible).toBe(20);
});

it("independent: the gas of a batch x the cell's measured loss factor", () => {
  const plain = valueOf(batchGas({ ...gas, quantity: 12 }));
  expect(valueOf(batchGas({ ...gas, quantity: 12, lossFactor: 1.4 }))).toBeCloseTo(plain * 1.4, 9);
});

/** printed: worked examples of takt; the first is a textbook's, the others are of middling standing. */
it.each([
  ['textbook: 2 x 480 - 2 x (20 + 20 + 30) = 820 min for 80, 10.25 min', 820, 80, 615],
  ['question and answer page: 400 min for 80, 300 s', 400, 80, 300],
  ['case study: 57 600 s for 450, 128 s', 960, 450, 128],
  ['study cards: 450 min for 4, 1 h 52 min 30 s', 450, 4, 6750],
  ['trade article on robots: 21 420 s for 357 parts, 60 s', 357, 357, 60],
])('printed: %s', (_source, availableMin, demand, expected) => {
  expect(valueOf(taktTime({ availableMin, demand }))).toBeCloseTo(expected, 9);
});

it('independent: 100 x 300 s want 500 min of 400, so 100 are short; 80 x 300 s want just 400', () => {
  // 100 parts x 300 s = 500 min wanted, 400 min there.
  expect(valueOf(taktShortfall({ availableMin: 400, demand: 100, cycleS: 300 }))).toBe(100);
  expect(valueOf(taktShortfall({ availableMin: 400, demand: 80, cycleS: 300 }))).toBe(0);
});

/** independent: own figures in the two-line formula. */
it.each([
  ['(45 - 15 + 240 / 6) / (18 - 8)', 240, 6, 7],
  ['(45 - 15 + 240 / 1) / (18 - 8)', 240, 1, 27],
  ['(45 - 15 + 0) / (18 - 8)', 0, 6, 3],
])('independent: break-even %s', (_words, programmingMin, expectedBatches, expected) => {
  const ways = { robotFixedMin: 45, boothFixedMin: 15, robotUnitMin: 8, boothUnitMin: 18 };
  expect(valueOf(breakEven({ ...ways, programmingMin, expectedBatches }))).toBe(expected);
});

/** invented example: robot 25 + 15 fixed and 4.23 each, booth 20 fixed and 9.5 each; saving 5.27 min each. */
it.each([
  ['proven: 20 / 5.27 = 3.8', 0, 1, 4],
  ['150 min once: 170 / 5.27 = 32.3', 150, 1, 33],
  ['over two batches: 95 / 5.27 = 18.02', 150, 2, 19],
  ['over three: 70 / 5.27 = 13.3', 150, 3, 14],
  ['over four: 57.5 / 5.27 = 10.9', 150, 4, 11],
  ['over five: 50 / 5.27 = 9.5', 150, 5, 10],
])(
  'independent: invented example, break-even %s',
  (_words, programmingMin, expectedBatches, expected) => {
    const result = breakEven({
      robotFixedMin: 40,
      boothFixedMin: 20,
      robotUnitMin: cycleS / 60,
      boothUnitMin: 9.5,
      programmingMin,
      expectedBatches,
    });
    expect(valueOf(result)).toBe(expected);
    expect(partsOf(result).savingMin).toBeCloseTo(5.27, 2);
  },
);

it('refuses a break-even with a robot that is no faster, and a cycle without welds', () => {
  const ways = { robotFixedMin: 40, boothFixedMin: 20, robotUnitMin: 10, boothUnitMin: 9.5 };
  expect(breakEven({ ...ways, programmingMin: 0, expectedBatches: 1 })).toMatchObject({
    refusal: { argument: 'robotUnitMin', given: 10 },
  });
  expect(cycleTime({ ...bracket, welds: [], stations: 1 })).toMatchObject({
    refusal: { argument: 'welds', allowed: 'one weld or more' },
  });
  const welds = [...bracket.welds, { lengthMm: 50, count: 1.5, travelMmMin: 520 }];
  expect(cycleTime({ ...bracket, welds, stations: 1 })).toMatchObject({
    refusal: { argument: 'welds[1].count', given: 1.5 },
  });
});
