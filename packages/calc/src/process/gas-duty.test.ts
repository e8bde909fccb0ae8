import { expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import { allowedCurrent, averageDuty, permittedDuty } from './duty.js';
import { worstTenMinuteDuty } from './duty-window.js';
import { cylinderGas, gasLossFactor, gasPerKg, gasPerMetre, weldGas } from './gas.js';

it('independent: 15 l/min at 450 mm/min is 15 / 0.45 = 33.33 l/m', () => {
  expect(valueOf(gasPerMetre({ gasFlowLMin: 15, travelMmMin: 450 }))).toBeCloseTo(33.3333, 4);
});

it('independent: 15 l/min at 4 kg/h is 15 x 60 / 4 = 225 l/kg', () => {
  expect(valueOf(gasPerKg({ gasFlowLMin: 15, depositionKgH: 4 }))).toBeCloseTo(225, 10);
});

it('independent: 50 l at 200 bar is 10 000 l as an ideal gas, 666.7 min at 15 l/min', () => {
  const left = cylinderGas({ waterVolumeL: 50, pressureBar: 200 });
  expect(valueOf(left) / 15).toBeCloseTo(666.667, 3);
  expect(left).toMatchObject({ warnings: [{ code: 'idealGas' }] });
});

it('printed, disagrees: 20 l at 200 bar last 400 min at 10 l/min, where a web article prints 200', () => {
  expect(valueOf(cylinderGas({ waterVolumeL: 20, pressureBar: 200 })) / 10).toBe(400);
});

it('independent: 15 l/min over 110 s and 8 starts of 1.5 s lays 30.5 l, 36.6 l at a loss of 1.2', () => {
  // 15 x (110 + 8 x 1.5) / 60 = 30.5; x 1.2 = 36.6.
  const gas = { gasFlowLMin: 15, arcS: 110, starts: 8, preFlowS: 0.5, postFlowS: 1 };
  expect(valueOf(weldGas(gas))).toBeCloseTo(30.5, 10);
  const lossy = weldGas({ ...gas, lossFactor: 1.2 });
  expect(valueOf(lossy)).toBeCloseTo(36.6, 10);
  expect(partsOf(lossy).lostL).toBeCloseTo(6.1, 10);
  expect(valueOf(weldGas({ ...gas, starts: 4 }))).toBeLessThan(valueOf(weldGas(gas)));
});

it('independent: 9600 l used of 8000 calculated are a loss of 1.2, and a loss below one is warned of', () => {
  expect(valueOf(gasLossFactor({ usedL: 9600, calculatedL: 8000 }))).toBeCloseTo(1.2, 10);
  expect(gasLossFactor({ usedL: 7200, calculatedL: 8000 })).toMatchObject({
    warnings: [{ code: 'lossBelowOne', given: 0.9 }],
  });
});

it('independent: down to 10 bar of reserve 50 x (200 - 10) l are left, and nothing below it', () => {
  // 50 x (200 - 10) = 9500.
  expect(valueOf(cylinderGas({ waterVolumeL: 50, pressureBar: 200, reserveBar: 10 }))).toBe(9500);
  expect(valueOf(cylinderGas({ waterVolumeL: 50, pressureBar: 8, reserveBar: 10 }))).toBe(0);
});

it('independent: a source for 300 A at 60 % carries 350 A for 60 x (300 / 350)^2 = 44.08 %', () => {
  const duty = permittedDuty({ ratedA: 300, ratedDutyPct: 60, currentA: 350 });
  expect(valueOf(duty)).toBeCloseTo(44.0816, 4);
});

/** printed: plates of power sources, quoted in a source manual. Tolerance half an ampere. */
it.each([
  [400, 25, 50, 282.8],
  [90, 20, 60, 52],
  [90, 20, 100, 40],
])(
  'printed: %i A at %i per cent duty; at %i per cent %f A',
  (ratedA, ratedDutyPct, dutyPct, printed) => {
    const current = valueOf(allowedCurrent({ ratedA, ratedDutyPct, dutyPct }));
    expect(Math.abs(current - printed)).toBeLessThanOrEqual(0.5);
  },
);

/** printed: plates that beat the rule, by up to 10 %; it must stay on the careful side of them. */
it.each([
  [350, 60, 100, 300],
  [200, 10, 60, 85],
  [200, 10, 100, 65],
])(
  'printed: %i A at %i per cent duty; at %i per cent %i A, more than the rule allows',
  (ratedA, ratedDutyPct, dutyPct, printed) => {
    const current = valueOf(allowedCurrent({ ratedA, ratedDutyPct, dutyPct }));
    expect(current).toBeLessThan(printed);
    expect(current).toBeGreaterThan(printed * 0.9);
  },
);

it('printed: 60 % of a 10-minute window is 6 min of arc (AWS glossary)', () => {
  expect(valueOf(averageDuty({ arcS: 6 * 60, cycleS: 10 * 60 }))).toBeCloseTo(60, 10);
});

it('says that the square-root rule is a rule of thumb', () => {
  const current = allowedCurrent({ ratedA: 350, ratedDutyPct: 60, dutyPct: 100 });
  expect(current).toMatchObject({ ok: true, warnings: [{ code: 'ruleOfThumb' }] });
});

const arcS = (960 / 520) * 60;
const robotS = arcS + 8 * 1.5 + 30 + 6;
const torch = { ratedA: 250, ratedDutyPct: 60, maxA: 300 };

it('independent: invented example, one station, 43.6 % on average, 47.7 % in the worst 10 min, 280 A allowed', () => {
  // 110.77 / 253.77 = 0.4365. Two cycles take 507.5 s; the 92.46 s left hold 92.46 / 158.77 x 110.77 = 64.51 s
  // of arc; (221.54 + 64.51) / 600 = 0.4767. 250 x sqrt(60 / 47.67) = 280.5.
  const cycleS = robotS + 95;
  expect(valueOf(averageDuty({ arcS, cycleS }))).toBeCloseTo(43.65, 2);
  const dutyPct = valueOf(worstTenMinuteDuty({ arcS, robotS, cycleS }));
  expect(dutyPct).toBeCloseTo(47.67, 2);
  expect(valueOf(allowedCurrent({ ...torch, dutyPct }))).toBeCloseTo(280.46, 1);
});

it('independent: invented example, two stations, 69.8 %, so that the 250 A torch takes only 232 A', () => {
  // 110.77 / 158.77 = 0.6977, the same in every window; 250 x sqrt(60 / 69.77) = 231.8.
  const dutyPct = valueOf(averageDuty({ arcS, cycleS: robotS }));
  expect(dutyPct).toBeCloseTo(69.77, 2);
  expect(valueOf(worstTenMinuteDuty({ arcS, robotS, cycleS: robotS }))).toBeCloseTo(dutyPct, 10);
  expect(valueOf(allowedCurrent({ ...torch, dutyPct }))).toBeCloseTo(231.8, 1);
});

it('never allows more than the maximum on the plate, nor more than 100 % duty', () => {
  expect(valueOf(allowedCurrent({ ...torch, dutyPct: 5 }))).toBe(300);
  expect(valueOf(allowedCurrent({ ratedA: 250, ratedDutyPct: 60, dutyPct: 5 }))).toBe(250);
  expect(valueOf(permittedDuty({ ratedA: 300, ratedDutyPct: 60, currentA: 100 }))).toBe(100);
});

it('refuses more arc than cycle', () => {
  expect(averageDuty({ arcS: 61, cycleS: 60 })).toMatchObject({
    refusal: { argument: 'arcS', given: 61, allowed: 'not more than the cycle, 60 s' },
  });
  expect(worstTenMinuteDuty({ arcS: 10, robotS: 70, cycleS: 60 })).toMatchObject({
    refusal: { argument: 'robotS', given: 70 },
  });
});
