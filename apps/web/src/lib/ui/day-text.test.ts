import { describe, expect, it } from 'vitest';
import { daysBetween, dayInWords, readDay } from './day-text.js';

const today = '2026-10-05';

/** Weekdays checked against a printed calendar of 2026; the rest is the Gregorian calendar. */
describe('readDay', () => {
  it.each([
    ['2026-10-07', '2026-10-07'],
    ['2026-1-7', '2026-01-07'],
    ['7.10', '2026-10-07'],
    ['7.10.', '2026-10-07'],
    ['5/10', '2026-10-05'],
    ['7. 10. 2027', '2027-10-07'],
    ['4.10', '2026-10-04'],
    ['2.1', '2027-01-02'],
    ['29.2.2028', '2028-02-29'],
  ])('reads %j as %s', (typed, day) => {
    expect(readDay(typed, today)).toEqual({ kind: 'day', day });
  });
  it.each(['31.2', '2026-02-31', '2027-02-29', '0.5', '5.13', '31.4.2026'])(
    'knows that %j is in no calendar',
    (typed) => {
      expect(readDay(typed, today)).toEqual({ kind: 'impossible' });
    },
  );
  it.each(['friday', '7', '7-10', '10072026', '7.10.26'])('refuses %j', (typed) => {
    expect(readDay(typed, today)).toEqual({ kind: 'refused' });
  });
  it('leaves an empty field empty', () => {
    expect(readDay(' ', today)).toEqual({ kind: 'empty' });
  });
});

describe('dayInWords', () => {
  it('names the weekday and the month', () => {
    expect(dayInWords('2026-10-07')).toBe('Wed 7 Oct 2026');
    expect(dayInWords('2026-10-05')).toBe('Mon 5 Oct 2026');
  });
  /** Abbreviations as in Unicode CLDR, from memory. */
  it.each([
    ['de', 'Mi., 7. Okt. 2026'],
    ['es', 'mié, 7 oct 2026'],
    ['pl', 'śr., 7 paź 2026'],
  ] as const)('names them in other languages: %s', (locale, words) => {
    expect(dayInWords('2026-10-07', locale)).toBe(words);
  });
});

describe('daysBetween', () => {
  it('counts over a change of the clocks', () => {
    expect(daysBetween('2026-10-24', '2026-10-26')).toBe(2);
    expect(daysBetween('2026-10-05', '2026-09-30')).toBe(-5);
  });
});
