import { describe, expect, it } from 'vitest';
import { minuteOf } from './lane-times.js';
import {
  afterDue,
  downWords,
  gapWords,
  openWords,
  plannedWords,
  weekdayAndClock,
} from './time-words.js';

/** Monday 5 October 2026, 07:00 in Berlin. */
const here = { nowMin: minuteOf('2026-10-05T05:00:00Z'), timeZone: 'Europe/Berlin' };
const time = (start: string | null, finish: string | null) => ({
  startMin: start === null ? null : minuteOf(start),
  finishMin: finish === null ? null : minuteOf(finish),
});

describe('planned times in words', () => {
  it('name weekday and time in the shop, and the date where the weekday could mean another week', () => {
    expect(weekdayAndClock(minuteOf('2026-10-06T04:30:00Z'), here)).toBe('Tue 06:30');
    expect(weekdayAndClock(minuteOf('2026-10-13T04:30:00Z'), here)).toBe('Tue 13 Oct, 06:30');
    expect(weekdayAndClock(minuteOf('2026-10-26T05:00:00Z'), here)).toBe('Mon 26 Oct, 06:00');
  });
  it('say the day once where it is the same', () => {
    const sameDay = time('2026-10-05T05:00:00Z', '2026-10-05T07:30:00Z');
    expect(plannedWords(sameDay, false, here)).toBe('Mon 07:00 to 09:30');
    const overnight = time('2026-10-05T11:00:00Z', '2026-10-06T05:00:00Z');
    expect(plannedWords(overnight, false, here)).toBe('Mon 13:00 to Tue 07:00');
    expect(plannedWords(overnight, true, here)).toBe('until Tue 07:00');
  });
  it('say what is not in sight', () => {
    expect(plannedWords(time('2026-10-05T11:00:00Z', null), false, here)).toBe(
      'from Mon 13:00, finish not in sight',
    );
    expect(plannedWords(time(null, null), false, here)).toBe('Start cannot be said');
  });
});

describe('afterDue', () => {
  it('asks for the day of the shop, and the due day itself is in time', () => {
    const lateEvening = time('2026-10-05T20:00:00Z', '2026-10-05T21:59:00Z');
    expect(afterDue(lateEvening, '2026-10-05', here)).toBe(false);
    const pastMidnight = time('2026-10-05T20:00:00Z', '2026-10-05T22:01:00Z');
    expect(afterDue(pastMidnight, '2026-10-05', here)).toBe(true);
    expect(afterDue(time(null, null), '2026-10-05', here)).toBe(false);
    expect(afterDue(undefined, '2026-10-05', here)).toBe(false);
  });
});

describe('gaps in words', () => {
  const gap = {
    startMin: minuteOf('2026-10-05T12:00:00Z'),
    endMin: minuteOf('2026-10-07T04:00:00Z'),
  };
  const loss = { day: '2026-10-06', kind: 'closed', minutes: 0, reason: 'Town fair' } as const;
  it('name the reason that the calendar gives, or that there is no shift', () => {
    expect(gapWords(gap, [], here)).toBe('No shift until Wed 06:00');
    expect(gapWords(gap, [loss], here)).toBe('Town fair, until Wed 06:00');
    expect(gapWords(gap, [{ ...loss, day: '2026-10-08' }], here)).toBe('No shift until Wed 06:00');
  });
  it('name downtime with its minutes', () => {
    expect(downWords({ ...loss, kind: 'down', minutes: 90, reason: 'Fan service' })).toBe(
      'Down Tue 6 Oct, 1 h 30 min: Fan service',
    );
  });
});

describe('what a job lacks in words', () => {
  const lacks = { open: 2, until: '2026-10-08', overdue: 0 };
  it('names the weekday, and the date where the weekday could mean another week', () => {
    expect(openWords(lacks, here)).toBe('2 open until Thursday');
    expect(openWords({ ...lacks, until: '2026-10-11' }, here)).toBe('2 open until Sunday');
    expect(openWords({ ...lacks, until: '2026-10-12' }, here)).toBe('2 open until Mon 12 Oct');
    expect(openWords({ ...lacks, until: '2026-10-05' }, here)).toBe('2 open until today');
  });
  it('says first what is overdue', () => {
    expect(openWords({ ...lacks, overdue: 1 }, here)).toBe('2 open, 1 overdue');
  });
});
