import { queueTimes } from '@tackboard/calc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addWorkingMinutes, plannedMinutes, workingWindows } from './planned-time.js';

/**
 * Worked by hand on the calendar. Berlin's clock goes from 02:00 to 03:00 on Sunday 29 March 2026 and from 03:00
 * to 02:00 on Sunday 25 October 2026 (IANA time zone database, Europe/Berlin).
 */
const timeZone = 'Europe/Berlin';

type Shift = Parameters<typeof plannedMinutes>[0]['shifts'][number];
type DayChange = Parameters<typeof plannedMinutes>[0]['dayChanges'][number];

function shift(weekday: number, hours: string, changes: Partial<Shift> = {}): Shift {
  const [startTime = '', endTime = ''] = hours.split('-');
  return { weekday, startTime, endTime, breakMin: 30, staffed: true, ...changes };
}
function change(day: string, kind: DayChange['kind'], minutes = 0): DayChange {
  return { day, kind, minutes, reason: 'planned' };
}
const weekdays = [1, 2, 3, 4, 5];
const early = weekdays.map((weekday) => shift(weekday, '06:00-14:00'));
const nights = [1, 2, 3, 4, 5, 6, 7].map((weekday) => shift(weekday, '22:00-06:00'));

function planned(
  from: string,
  to: string,
  shifts: readonly Shift[],
  dayChanges: readonly DayChange[] = [],
) {
  return plannedMinutes({ shifts, dayChanges, from: new Date(from), to: new Date(to), timeZone });
}

describe('planned minutes of a cell', () => {
  it.each([
    ['a week of early shifts: 5 x 450', '2026-10-05T00:00+02:00', '2026-10-12T00:00+02:00', 2250],
    ['half a shift: half of 450', '2026-10-05T06:00+02:00', '2026-10-05T10:00+02:00', 225],
    ['a weekend', '2026-10-10T00:00+02:00', '2026-10-12T00:00+02:00', 0],
    ['leap day, Tuesday 29 Feb 2028', '2028-02-29T00:00+01:00', '2028-03-01T00:00+01:00', 450],
    ['the week over it', '2028-02-28T00:00+01:00', '2028-03-06T00:00+01:00', 2250],
    ['nothing backwards', '2026-10-06T00:00+02:00', '2026-10-05T00:00+02:00', 0],
  ])('%s', (_case, from, to, minutes) => {
    expect(planned(from, to, early)).toEqual({ plannedMin: minutes, staffedMin: minutes });
  });

  it.each([
    ['an ordinary one: 480 - 30', '2026-10-03T12:00+02:00', '2026-10-04T12:00+02:00', 450],
    ['clock forward: 420 - 30', '2026-03-28T12:00+01:00', '2026-03-29T12:00+02:00', 390],
    ['clock back: 540 - 30', '2026-10-24T12:00+02:00', '2026-10-25T12:00+01:00', 510],
    ['New Year: 480 - 30', '2026-12-31T12:00+01:00', '2027-01-01T12:00+01:00', 450],
    ['its half after midnight: 450 x 6/8', '2026-12-31T23:00Z', '2027-01-01T12:00+01:00', 337.5],
  ])('a night shift, %s', (_case, from, to, minutes) => {
    expect(planned(from, to, nights).plannedMin).toBeCloseTo(minutes, 9);
  });

  it('does not start a shift in the hour that is left out, and counts the repeated hour twice', () => {
    const sunday = [shift(7, '02:00-03:00', { breakMin: 0 })];
    expect(planned('2026-03-29T00:00+01:00', '2026-03-30T00:00+02:00', sunday).plannedMin).toBe(0);
    expect(planned('2026-10-25T00:00+02:00', '2026-10-26T00:00+01:00', sunday).plannedMin).toBe(
      120,
    );
  });

  it('takes the night that starts on a holiday out and keeps the one that runs into it', () => {
    const holiday = [change('2027-01-01', 'closed')];
    const newYear = ['2026-12-31T12:00+01:00', '2027-01-01T12:00+01:00'] as const;
    const after = ['2027-01-01T12:00+01:00', '2027-01-02T12:00+01:00'] as const;
    expect(planned(...newYear, nights, holiday).plannedMin).toBe(450);
    expect(planned(...after, nights, holiday).plannedMin).toBe(0);
  });

  it('counts a shift without a person as planned, not as staffed', () => {
    const shifts = [
      shift(1, '06:00-14:00'),
      shift(1, '14:00-22:00', { breakMin: 0, staffed: false }),
    ];
    expect(planned('2026-10-05T00:00+02:00', '2026-10-06T00:00+02:00', shifts)).toEqual({
      plannedMin: 450 + 480,
      staffedMin: 450,
    });
  });

  it.each([
    ['overtime after the shift', [change('2026-10-05', 'overtime', 120)], 570],
    ['downtime within the shift', [change('2026-10-05', 'down', 150)], 300],
    ['downtime longer than the day', [change('2026-10-05', 'down', 900)], 0],
    [
      'both: 450 + 120 - 150',
      [change('2026-10-05', 'overtime', 120), change('2026-10-05', 'down', 150)],
      420,
    ],
    [
      'overtime on a closed day',
      [change('2026-10-05', 'closed'), change('2026-10-05', 'overtime', 240)],
      240,
    ],
  ] as const)('%s', (_case, dayChanges, minutes) => {
    const day = ['2026-10-05T00:00+02:00', '2026-10-06T00:00+02:00'] as const;
    expect(planned(...day, early, dayChanges).plannedMin).toBeCloseTo(minutes, 9);
  });

  it('starts overtime on a day without shifts when the earliest shift of the week does', () => {
    const saturday = [change('2026-10-10', 'overtime', 240)];
    const hours = ['2026-10-10T06:00+02:00', '2026-10-10T10:00+02:00'] as const;
    expect(planned(...hours, early, saturday).plannedMin).toBe(240);
  });

  it('counts overtime once where it runs into the next shift', () => {
    const long = [change('2026-10-05', 'overtime', 1200)]; // 14:00 to 10:00, of which 4 h are Tuesday's
    const days = ['2026-10-05T00:00+02:00', '2026-10-07T00:00+02:00'] as const;
    expect(planned(...days, early, long).plannedMin).toBeCloseTo(450 + 1200 + 225, 9);
  });
});

describe('adding working minutes', () => {
  const calendar = {
    shifts: weekdays.map((weekday) => shift(weekday, '06:00-14:00', { breakMin: 0 })),
    dayChanges: [],
  };
  it.each([
    ['to the end of the shift', '2026-10-05T07:00+02:00', 420, '2026-10-05T14:00+02:00'],
    ['on to the next day', '2026-10-05T07:00+02:00', 421, '2026-10-06T06:01+02:00'],
    ['over a weekend', '2026-10-09T13:00+02:00', 120, '2026-10-12T07:00+02:00'],
    ['over the clock going back', '2026-10-23T13:00+02:00', 120, '2026-10-26T07:00+01:00'],
    ['over the clock going forward', '2026-03-27T13:00+01:00', 120, '2026-03-30T07:00+02:00'],
    ['over the leap day', '2028-02-28T13:00+01:00', 600, '2028-03-01T07:00+01:00'],
    ['over New Year', '2026-12-31T13:00+01:00', 120, '2027-01-01T07:00+01:00'],
    ['from before the shift', '2026-10-05T00:00+02:00', 60, '2026-10-05T07:00+02:00'],
    ['none', '2026-10-10T12:00+02:00', 0, '2026-10-10T12:00+02:00'],
  ])('%s', (_case, from, minutes, to) => {
    expect(addWorkingMinutes(calendar, new Date(from), minutes, timeZone)).toEqual(new Date(to));
  });

  it('passes over a closed day', () => {
    const dayChanges = [change('2026-10-06', 'closed')];
    const from = new Date('2026-10-05T13:00+02:00');
    expect(addWorkingMinutes({ ...calendar, dayChanges }, from, 120, timeZone)).toEqual(
      new Date('2026-10-07T07:00+02:00'),
    );
  });

  it('has no answer for a cell without hours, or with fewer left than asked for', () => {
    const from = new Date('2026-10-05T13:00+02:00');
    const saturday = [change('2026-10-10', 'overtime', 240)];
    const past = [change('2026-10-03', 'overtime', 240)];
    const answer = (dayChanges: DayChange[], minutes: number) =>
      addWorkingMinutes({ shifts: [], dayChanges }, from, minutes, timeZone);
    expect(answer([], 1)).toBeNull();
    expect(answer(past, 1)).toBeNull();
    expect(answer(saturday, 241)).toBeNull();
    expect(answer(saturday, 240)).toEqual(new Date('2026-10-10T10:00+02:00'));
  });

  it('is the inverse of counting, and counting adds up over any cut', () => {
    const startMs = Date.parse('2026-03-01T00:00Z');
    const hour = fc
      .integer({ min: 0, max: 300 * 24 })
      .map((h) => new Date(startMs + h * 3_600_000));
    const shifts = [...early, ...nights.map((night) => ({ ...night, staffed: false }))];
    const dayChanges = [
      change('2026-04-03', 'closed'),
      change('2026-05-09', 'overtime', 300),
      change('2026-10-23', 'down', 200),
    ];
    const count = (from: Date, to: Date) =>
      plannedMinutes({ shifts, dayChanges, from, to, timeZone }).plannedMin;
    fc.assert(
      fc.property(hour, fc.integer({ min: 1, max: 9000 }), hour, (from, minutes, cut) => {
        const end = addWorkingMinutes({ shifts, dayChanges }, from, minutes, timeZone);
        if (end === null) return false;
        const whole = count(from, end);
        const middle = cut < from ? from : cut > end ? end : cut;
        return (
          Math.abs(whole - minutes) < 0.001 &&
          Math.abs(count(from, middle) + count(middle, end) - whole) < 1e-6
        );
      }),
      { numRuns: 60 },
    );
  });
});

describe('the working windows of a cell', () => {
  const windowsOf = (
    from: string,
    to: string,
    shifts: readonly Shift[],
    dayChanges: readonly DayChange[] = [],
  ) =>
    workingWindows({
      ...{ shifts, dayChanges, timeZone, planningFactor: 1 },
      from: new Date(from),
      to: new Date(to),
    }).map((window) => [
      ...[window.from, window.to].map((each) => each.replace(/:00\.000Z$/, 'Z')),
      window.share,
    ]);
  const whole = { breakMin: 0 };

  it.each([
    [
      'a shift over midnight',
      ['2026-10-05T12:00+02:00', '2026-10-06T12:00+02:00'],
      [shift(1, '22:00-06:00', whole)],
      [],
      [['2026-10-05T20:00Z', '2026-10-06T04:00Z', 1]],
    ],
    [
      'the same, cut by the span asked for',
      ['2026-10-06T00:00+02:00', '2026-10-06T03:00+02:00'],
      [shift(1, '22:00-06:00', whole)],
      [],
      [['2026-10-05T22:00Z', '2026-10-06T01:00Z', 1]],
    ],
    [
      'the night of 28 March 2027, when the clock goes forward: 7 h',
      ['2027-03-27T12:00+01:00', '2027-03-28T12:00+02:00'],
      [shift(6, '22:00-06:00', whole)],
      [],
      [['2027-03-27T21:00Z', '2027-03-28T04:00Z', 1]],
    ],
    [
      'the night of 29 March 2026, when it goes forward: 7 h',
      ['2026-03-28T12:00+01:00', '2026-03-29T12:00+02:00'],
      [shift(6, '22:00-06:00', whole)],
      [],
      [['2026-03-28T21:00Z', '2026-03-29T04:00Z', 1]],
    ],
    [
      'the night of 25 October 2026, when it goes back: 9 h',
      ['2026-10-24T12:00+02:00', '2026-10-25T12:00+01:00'],
      [shift(6, '22:00-06:00', whole)],
      [],
      [['2026-10-24T20:00Z', '2026-10-25T05:00Z', 1]],
    ],
    [
      'the night of 31 October 2027, when it goes back: 9 h',
      ['2027-10-30T12:00+02:00', '2027-10-31T12:00+01:00'],
      [shift(6, '22:00-06:00', whole)],
      [],
      [['2027-10-30T20:00Z', '2027-10-31T05:00Z', 1]],
    ],
    [
      'a holiday between two days',
      ['2026-10-05T00:00+02:00', '2026-10-08T00:00+02:00'],
      early.map((each) => ({ ...each, ...whole })),
      [change('2026-10-06', 'closed')],
      [
        ['2026-10-05T04:00Z', '2026-10-05T12:00Z', 1],
        ['2026-10-07T04:00Z', '2026-10-07T12:00Z', 1],
      ],
    ],
    [
      'the leap day, Tuesday 29 Feb 2028',
      ['2028-02-29T00:00+01:00', '2028-03-01T00:00+01:00'],
      early.map((each) => ({ ...each, ...whole })),
      [],
      [['2028-02-29T05:00Z', '2028-02-29T13:00Z', 1]],
    ],
    [
      '31 December to 1 January',
      ['2026-12-31T12:00+01:00', '2027-01-01T12:00+01:00'],
      [shift(4, '22:00-06:00', whole)],
      [],
      [['2026-12-31T21:00Z', '2027-01-01T05:00Z', 1]],
    ],
    [
      'overtime behind the shift and downtime that thins the day out: 300 of 600 min',
      ['2026-10-05T00:00+02:00', '2026-10-06T00:00+02:00'],
      [shift(1, '06:00-14:00', whole)],
      [change('2026-10-05', 'overtime', 120), change('2026-10-05', 'down', 300)],
      [
        ['2026-10-05T04:00Z', '2026-10-05T12:00Z', 0.5],
        ['2026-10-05T12:00Z', '2026-10-05T14:00Z', 0.5],
      ],
    ],
    [
      'a day that is down altogether',
      ['2026-10-05T00:00+02:00', '2026-10-06T00:00+02:00'],
      [shift(1, '06:00-14:00', whole)],
      [change('2026-10-05', 'down', 480)],
      [],
    ],
    ['a cell with no hours', ['2026-10-05T00:00+02:00', '2026-11-05T00:00+01:00'], [], [], []],
  ] as const)('%s', (_case, [from, to], shifts, dayChanges, windows) => {
    expect(windowsOf(from, to, shifts, dayChanges)).toEqual(windows);
  });

  it('finish a queue when the promise of an order says so', () => {
    const startMs = Date.parse('2026-03-01T00:00Z');
    const instant = fc
      .integer({ min: 0, max: 300 * 24 * 60 })
      .map((minute) => new Date(startMs + minute * 60_000));
    const shifts = [...early, ...nights];
    const dayChanges = [
      change('2026-04-03', 'closed'),
      change('2026-05-09', 'overtime', 300),
      change('2026-10-23', 'down', 200),
    ];
    fc.assert(
      fc.property(
        instant,
        fc.array(fc.integer({ min: 1, max: 900 }), { minLength: 1, maxLength: 8 }),
        (from, steps) => {
          const to = new Date(from.getTime() + 60 * 86_400_000);
          const windows = workingWindows({
            shifts,
            dayChanges,
            from,
            to,
            timeZone,
            planningFactor: 0.8,
          });
          const walked = queueTimes({
            fromMin: from.getTime() / 60_000,
            windows: windows.map((window) => ({
              startMin: Date.parse(window.from) / 60_000,
              endMin: Date.parse(window.to) / 60_000,
              share: window.share,
            })),
            steps: steps.map((workMin) => ({ workMin })),
          });
          const sum = steps.reduce((total, minutes) => total + minutes, 0);
          const promised = addWorkingMinutes({ shifts, dayChanges }, from, sum / 0.8, timeZone);
          const finishMin = walked.ok ? walked.times.at(-1)?.finishMin : null;
          expect(finishMin).toBeCloseTo((promised?.getTime() ?? 0) / 60_000, 3);
        },
      ),
      { numRuns: 60 },
    );
  });
});
