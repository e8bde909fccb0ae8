import { describe, expect, it } from 'vitest';
import { dayStarts, spanAhead } from './day-starts.js';
import { instantOf, minuteOf } from './lane-times.js';

const timeZone = 'Europe/Berlin';
const startsBetween = (from: string, to: string) =>
  dayStarts({ startMin: minuteOf(from), endMin: minuteOf(to) }, timeZone).map((start) =>
    instantOf(start).toISOString(),
  );

/** Berlin's clock changes on 25 October 2026 and 28 March 2027 (IANA time zone database). */
describe('dayStarts', () => {
  it('keeps to the midnights of the shop when the clock changes', () => {
    expect(startsBetween('2026-10-24T10:00:00Z', '2026-10-26T12:00:00Z')).toEqual([
      '2026-10-24T22:00:00.000Z',
      '2026-10-25T23:00:00.000Z',
    ]);
    expect(startsBetween('2027-03-27T12:00:00Z', '2027-03-29T00:00:00Z')).toEqual([
      '2027-03-27T23:00:00.000Z',
      '2027-03-28T22:00:00.000Z',
    ]);
  });
  it('gives none within one day', () => {
    expect(startsBetween('2026-10-05T05:00:00Z', '2026-10-05T20:00:00Z')).toEqual([]);
  });
});

describe('spanAhead', () => {
  const now = minuteOf('2026-10-05T05:00:00Z');
  const endOf = (...ends: (number | null)[]) =>
    instantOf(spanAhead(now, ends, timeZone).endMin).toISOString();
  it('reaches to the end of the last day with work, three days at least and seven at most', () => {
    expect(endOf()).toBe('2026-10-07T22:00:00.000Z');
    expect(endOf(minuteOf('2026-10-08T10:00:00Z'))).toBe('2026-10-08T22:00:00.000Z');
    expect(endOf(minuteOf('2026-11-20T10:00:00Z'))).toBe('2026-10-11T22:00:00.000Z');
    expect(endOf(null)).toBe('2026-10-11T22:00:00.000Z');
  });
});
