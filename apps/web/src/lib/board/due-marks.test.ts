import { describe, expect, it } from 'vitest';
import { dueMarks, dueWords } from './due-marks.js';
import { minuteOf } from './lane-times.js';

const timeZone = 'Europe/Berlin';
/** Monday 5 October 2026, 07:00 to the end of Wednesday. */
const span = {
  startMin: minuteOf('2026-10-05T05:00:00Z'),
  endMin: minuteOf('2026-10-07T22:00:00Z'),
};
const step = (jobNumber: number, dueOn: string, late = false) => ({ jobNumber, dueOn, late });
const marks = (...steps: ReturnType<typeof step>[]) => dueMarks(steps, span, timeZone);

describe('due marks of a lane', () => {
  it('stand at the end of the due day of the shop, in the order of the days', () => {
    const [first, second] = marks(step(2, '2026-10-06'), step(1, '2026-10-05'));
    // Midnight in Berlin is 22:00 UTC of the day before.
    expect(first).toMatchObject({ day: '2026-10-05', atMin: minuteOf('2026-10-05T22:00:00Z') });
    expect(second).toMatchObject({ day: '2026-10-06', atMin: minuteOf('2026-10-06T22:00:00Z') });
  });
  it('gather what is due on one day, each job once, and keep late ones apart', () => {
    const day = '2026-10-06';
    const found = marks(step(1, day), step(2, day, true), step(3, day), step(3, day));
    expect(found.map(({ jobs, late }) => [late, ...jobs])).toEqual([
      [true, 2],
      [false, 1, 3],
    ]);
  });
  it('stand at the begin where the day is past, and nowhere where it is beyond', () => {
    expect(marks(step(1, '2026-10-02', true))).toMatchObject([{ atMin: span.startMin }]);
    expect(marks(step(1, '2026-10-07'))).toHaveLength(1);
    expect(marks(step(1, '2026-10-08'))).toEqual([]);
  });
  it('stand at midnight also on the day the clock goes back', () => {
    const autumn = {
      startMin: minuteOf('2026-10-24T22:00:00Z'),
      endMin: minuteOf('2026-10-26T23:00:00Z'),
    };
    const [mark] = dueMarks([step(1, '2026-10-25')], autumn, timeZone);
    expect(mark?.atMin).toBe(minuteOf('2026-10-25T23:00:00Z'));
  });
  it('say in words what they are', () => {
    const [late, inTime] = marks(step(7, '2026-10-06', true), step(8, '2026-10-06'));
    expect(dueWords(late!)).toBe('due Tue 6 Oct and late: job 7');
    expect(dueWords(inTime!)).toBe('due Tue 6 Oct: job 8');
  });
});
