import { describe, expect, it } from 'vitest';
import { missingOf } from './missing.js';
import { dayFor, personFor, type Candidate } from './propose.js';

const person = (code: string, changes: Partial<Candidate> = {}): Candidate => ({
  ...{ id: `id-${code}`, code, name: `Name ${code}`, role: 'welder' },
  ...{ coordinator: false, active: true, ...changes },
});
const note = (
  topic: 'wire' | 'fit' | 'revision',
  state: 'ok' | 'check' | 'stop' | 'cannotSay',
) => ({
  ...{ topic, state, text: `step 1: ${topic} ${state}` },
  clearedBy: state === 'ok' ? null : ('welder' as const),
});

describe('what is missing', () => {
  it('is what is not clear, once for each step and topic', () => {
    const missing = missingOf([
      { stepNumber: 1, note: note('fit', 'check') },
      { stepNumber: 1, note: note('fit', 'stop') },
      { stepNumber: 2, note: note('fit', 'check') },
      { stepNumber: 1, note: note('wire', 'ok') },
    ]);
    expect(missing.map(({ stepNumber, text }) => [stepNumber, text])).toEqual([
      [1, 'step 1: fit check; fit stop'],
      [2, 'step 1: fit check'],
    ]);
  });
  it('is neither what cannot be said nor a revision that is made for the first time', () => {
    const notes = [note('wire', 'cannotSay'), note('revision', 'check')];
    expect(missingOf(notes.map((each) => ({ stepNumber: null, note: each })))).toEqual([]);
  });
});

describe('whom it is given to', () => {
  const people = [
    person('W01'),
    person('W02'),
    person('Q01', { role: 'qa', coordinator: true }),
    person('Q00', { role: 'qa' }),
    person('S01', { role: 'office' }),
    person('M01', { role: 'manager' }),
  ];
  const shop = { people, takerId: 'id-S01', openOf: new Map() };
  const to = (clearedBy: Parameters<typeof personFor>[0], changes: Partial<typeof shop> = {}) =>
    personFor(clearedBy, { ...shop, ...changes })?.code;

  it('is one who can clear it: by authority for the coordinator, by role else', () => {
    expect([to('coordinator'), to('qa'), to('office')]).toEqual(['Q01', 'Q00', 'S01']);
  });
  it('is the one with the fewest, by code where they are alike', () => {
    expect(to('welder')).toBe('W01');
    expect(to('welder', { openOf: new Map([['id-W01', 1]]) })).toBe('W02');
  });
  it('is whoever takes the order, where they can', () => {
    expect(to('office', { people: [person('S00', { role: 'office' }), ...people] })).toBe('S01');
  });
  it('is the manager where the shop has nobody of that kind, and nobody who has left', () => {
    const left = people.map((each) => (each.role === 'welder' ? { ...each, active: false } : each));
    expect(to('welder', { people: left })).toBe('M01');
    expect(to('welder', { people: [], takerId: 'id-W01' })).toBeUndefined();
  });
});

describe('the day by which', () => {
  const minute = (iso: string) => Date.parse(iso) / 60_000;
  /** Monday to Thursday of one week, and Monday of the next. */
  const windows = ['05', '06', '07', '08', '12'].map((day) => ({
    ...{ startMin: minute(`2026-10-${day}T05:00:00Z`), endMin: minute(`2026-10-${day}T13:00:00Z`) },
    share: 0.8,
  }));
  const at = { now: new Date('2026-10-05T05:00:00Z'), timeZone: 'Europe/Berlin', windows };

  it('is the working day before the planned start, over days without work', () => {
    expect(dayFor('2026-10-07T06:00:00Z', at)).toBe('2026-10-06');
    expect(dayFor('2026-10-12T06:00:00Z', at)).toBe('2026-10-08');
  });
  it('is today where the work starts today or tomorrow, or where nobody knows when', () => {
    expect(dayFor('2026-10-05T09:00:00Z', at)).toBe('2026-10-05');
    expect(dayFor('2026-10-06T06:00:00Z', at)).toBe('2026-10-05');
    expect(dayFor(null, at)).toBe('2026-10-05');
  });
  it('is a day of the shop, not of UTC', () => {
    // 23:30 UTC is half past one in the shop on the next day.
    expect(dayFor('2026-10-06T23:30:00Z', at)).toBe('2026-10-06');
  });
});
