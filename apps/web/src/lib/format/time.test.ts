import { describe, expect, it } from 'vitest';
import { overwriteGetLocale } from '../paraglide/runtime.js';
import { addDays, clock, dayAndClock, dayIn, duration } from './time.js';

/** Central European time is UTC+1, summer time UTC+2 until the last Sunday of October (25 Oct 2026): Directive 2000/84/EC. */
describe('times in the shop', () => {
  it('names the day of the shop, not of UTC', () => {
    expect(dayIn(new Date('2026-10-05T22:30:00Z'), 'Europe/Berlin')).toBe('2026-10-06');
    expect(dayIn(new Date('2026-10-05T22:30:00Z'), 'America/Chicago')).toBe('2026-10-05');
  });
  it('follows the change of the clocks', () => {
    expect(clock('2026-10-24T08:42:07Z', 'Europe/Berlin', true)).toBe('10:42:07');
    expect(clock('2026-10-26T08:42:07Z', 'Europe/Berlin')).toBe('09:42');
    expect(clock('2026-10-05T22:05:00Z', 'Europe/Berlin')).toBe('00:05');
  });
  it('prints day and clock together', () => {
    expect(dayAndClock('2026-10-07T08:42:07Z', 'Europe/Berlin')).toBe('Wed 7 Oct 2026, 10:42');
  });
  it('prints the day in the language of the screen', () => {
    overwriteGetLocale(() => 'de');
    expect(dayAndClock('2026-10-07T08:42:07Z', 'Europe/Berlin')).toBe('Mi., 7. Okt. 2026, 10:42');
    overwriteGetLocale(() => 'en');
  });
});

describe('addDays', () => {
  it('crosses months and the change of the clocks', () => {
    expect(addDays('2026-10-24', 7)).toBe('2026-10-31');
    expect(addDays('2026-03-01', -1)).toBe('2026-02-28');
  });
});

describe('duration', () => {
  it.each([
    [90.8, '1 h 31 min'],
    [25, '25 min'],
    [59.6, '1 h'],
    [0, '0 min'],
  ])('prints %d minutes as %s', (minutes, text) => {
    expect(duration(minutes)).toBe(text);
  });
});
