import fc from 'fast-check';
import { expect, it } from 'vitest';
import { recordedCauses, weekMeasures, type WeekInputs } from './week.js';

function measured(inputs: WeekInputs) {
  const result = weekMeasures(inputs);
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.refusal)}`);
  return result;
}
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

it('independent: invented example, 9.4 h of arc is 25.1 % of planned, 26.1 % of staffed and 33.8 % of running', () => {
  // 9.4 / 37.5 = 0.2507; 9.4 / (37.5 - 1.5) = 0.2611; 9.4 / 27.8 = 0.3381.
  const week = measured({
    plannedMin: 37.5 * 60,
    staffedMin: 36 * 60,
    runningMin: 27.8 * 60,
    arcMin: 9.4 * 60,
    lost: { fault: 1.5 * 60, setUp: 6 * 60, handling: 18.4 * 60 },
  });
  expect(week.ofPlanned).toBeCloseTo(0.2507, 4);
  expect(week.ofStaffed).toBeCloseTo(0.2611, 4);
  expect(week.ofRunning).toBeCloseTo(0.3381, 4);
  // 37.5 - 9.4 - 1.5 - 6 - 18.4 = 2.2 h are left over.
  expect(week.lostH.noWork).toBeCloseTo(2.2, 9);
  expect(sum(Object.values(week.lostH)) + week.arcH).toBeCloseTo(37.5, 9);
  expect(week.overtimeMin).toBe(0);
});

it('has no share where the denominator is zero', () => {
  const week = measured({ plannedMin: 0, staffedMin: 0, runningMin: 0, arcMin: 0, lost: {} });
  expect([week.ofPlanned, week.ofStaffed, week.ofRunning]).toEqual([null, null, null]);
  expect(week.lostH.noWork).toBe(0);
});

it('independent: 100 + 50 + 30 min in 150 planned are 30 of overtime and none without work', () => {
  // 100 + 50 + 30 = 180 min recorded in 150 planned.
  const week = measured({
    plannedMin: 150,
    staffedMin: 150,
    runningMin: 160,
    arcMin: 100,
    lost: { handling: 50, setUp: 30 },
  });
  expect(week.overtimeMin).toBe(30);
  expect(week.overtimeH).toBe(0.5);
  expect(week.lostH.noWork).toBe(0);
});

it('warns when the arc burnt for longer than the cell ran', () => {
  const week = measured({ plannedMin: 60, staffedMin: 60, runningMin: 10, arcMin: 20, lost: {} });
  expect(week.warnings).toEqual([{ code: 'arcAboveRunning', given: 20 }]);
});

it('refuses negative and missing times by name', () => {
  const week = { plannedMin: 60, staffedMin: 60, runningMin: 10, arcMin: 5, lost: {} };
  expect(weekMeasures({ ...week, arcMin: -1 })).toMatchObject({
    refusal: { argument: 'arcMin', given: -1 },
  });
  expect(weekMeasures({ ...week, lost: { fault: NaN } })).toMatchObject({
    refusal: { argument: 'lost.fault' },
  });
});

it('independent: closes, arc and lost time sum to planned time and overtime, in every week', () => {
  const minutes = fc.double({ min: 0, max: 10_000, noNaN: true });
  const lost = fc.record(Object.fromEntries(recordedCauses.map((cause) => [cause, minutes])));
  fc.assert(
    fc.property(minutes, minutes, minutes, minutes, lost, (planned, staffed, running, arc, by) => {
      const week = measured({
        plannedMin: planned,
        staffedMin: staffed,
        runningMin: running,
        arcMin: arc,
        lost: by,
      });
      const closed = week.arcH + sum(Object.values(week.lostH));
      expect(Math.abs(closed - week.plannedH - week.overtimeH)).toBeLessThan(1e-9);
      expect(Math.min(...Object.values(week.lostH), week.overtimeH)).toBeGreaterThanOrEqual(0);
    }),
  );
});
