import { describe, expect, it } from 'vitest';
import { calendarOf, netShiftMin, shiftDrafts, timeAsTyped, weekMin } from './calendar-draft.js';

const early = { weekday: 1, startTime: '06:00', endTime: '14:00', breakMin: 30, staffed: true };

/** Plain clock arithmetic, worked by hand. */
describe('the calendar of a cell', () => {
  it('counts the net minutes of a shift, also past midnight', () => {
    expect(netShiftMin(early)).toBe(450);
    expect(netShiftMin({ startTime: '22:00', endTime: '6', breakMin: null })).toBe(480);
    expect(netShiftMin({ startTime: '25:00', endTime: '6:00', breakMin: 0 })).toBeNull();
  });
  it('sums a week of five early shifts to 37.5 h', () => {
    const shifts = [1, 2, 3, 4, 5].map((weekday) => ({ ...early, weekday }));
    expect(weekMin(shiftDrafts({ shifts, dayChanges: [] }))).toBe(37.5 * 60);
  });
  it.each([
    ['7', '07:00'],
    ['7:30', '07:30'],
    ['0730', '07:30'],
    ['14.15', '14:15'],
    ['noon', 'noon'],
  ])('reads the time %j as %s', (typed, time) => {
    expect(timeAsTyped(typed)).toBe(time);
  });
  it('sends back what is stored and waits for a missing day', () => {
    const day = { day: '2026-10-07', kind: 'closed', minutes: 0, reason: 'Stock-taking' } as const;
    const stored = { shifts: [early], dayChanges: [day] };
    expect(calendarOf(shiftDrafts(stored), [{ ...day, key: 0 }])).toEqual(stored);
    expect(calendarOf([], [{ ...day, key: 0, day: null }])).toBeNull();
  });
});
