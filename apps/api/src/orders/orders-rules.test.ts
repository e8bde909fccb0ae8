import { describe, expect, it } from 'vitest';
import { shopDay } from '../clock.js';
import { dayWords, weekdayWords } from './day-words.js';
import { median, questionsOf } from './line-questions.js';
import { plannedMinOf, proposeCell, realMinPerPart, type PastRun } from './planning.js';
import { stepNotes, type KeptSetUp, type StepFacts } from './ready-notes.js';
import { revisionAnswer } from './revision-state.js';

describe('days of the shop', () => {
  it('reads a day back with its weekday', () => {
    // 1 January 2026 is a Thursday (ISO 8601 week 2026-W01 starts on Monday 29 December 2025).
    expect(weekdayWords('2026-01-01')).toBe('Thu 1 Jan 2026');
    expect(dayWords('2026-03-14')).toBe('14 Mar 2026');
  });

  it('takes the day in the time zone of the shop, on both sides of midnight', () => {
    const at = new Date('2026-06-30T22:30:00Z');
    expect(shopDay(at, 'Europe/Berlin')).toBe('2026-07-01');
    expect(shopDay(at, 'America/Chicago')).toBe('2026-06-30');
  });
});

describe('questions about a line', () => {
  const line = { quantity: 12, dueOn: '2026-10-02', pastDueReason: null, quantityConfirmed: false };
  const facts = { today: '2026-09-01', usualQuantity: 12 };

  it('asks nothing about a usual line, nor on the due day itself', () => {
    expect(questionsOf(line, { ...facts, today: '2026-10-02' })).toEqual([]);
  });

  it('asks for a reason once the due day has passed', () => {
    const [question] = questionsOf(line, { ...facts, today: '2026-10-03' });
    expect(question).toMatchObject({ code: 'NEEDS_REASON', field: 'pastDueReason' });
    expect(question?.text).toContain('Fri 2 Oct 2026');
    const answered = { ...line, pastDueReason: 'customer agreed to the delay' };
    expect(questionsOf(answered, { ...facts, today: '2026-10-03' })).toEqual([]);
  });

  it('asks from ten times the usual quantity on, until it is confirmed', () => {
    const asked = (quantity: number, quantityConfirmed = false) =>
      questionsOf({ ...line, quantity, quantityConfirmed }, facts).map(({ text }) => text);
    expect(asked(119)).toEqual([]);
    expect(asked(120)[0]).toContain('10 times the usual 12');
    expect(asked(1200)[0]).toContain('100 times the usual 12?');
    expect(asked(1200, true)).toEqual([]);
  });

  it('knows no usual quantity for a part never made', () => {
    expect(questionsOf({ ...line, quantity: 9999 }, { ...facts, usualQuantity: null })).toEqual([]);
    expect([median([]), median([8, 2, 4]), median([2, 4])]).toEqual([null, 4, 3]);
  });
});

describe('planned minutes', () => {
  const step = { setUpMin: 30, firstPieceMin: 10, unitMin: 4 };
  const at = (min: number) => new Date(Date.UTC(2026, 0, 5, 8, min));
  const run = (lengthMin: number): PastRun => ({
    startedAt: at(0),
    endedAt: at(lengthMin),
    madeCount: 10,
    setUpMin: 0,
    stops: [],
  });

  it('sums set-up, first piece and quantity x minutes per part', () => {
    // 30 + 10 + 12 x 4 = 88
    expect(plannedMinOf(step, { quantity: 12, past: [] })).toBe(88);
  });

  it('takes the median of what was measured once there are three runs', () => {
    // 50, 60 and 200 min for 10 parts: median 6 min per part; 30 + 10 + 12 x 6 = 112
    expect(plannedMinOf(step, { quantity: 12, past: [run(50), run(60)] })).toBe(88);
    expect(plannedMinOf(step, { quantity: 12, past: [run(50), run(60), run(200)] })).toBe(112);
  });

  it('takes stops and set-up out, set-up once', () => {
    const stops = [
      { cause: 'setUp', startedAt: at(0), endedAt: at(20) },
      { cause: 'fault', startedAt: at(30), endedAt: at(40) },
    ];
    // 100 min - 20 min set-up - 10 min fault = 70 min for 10 parts
    expect(realMinPerPart({ ...run(100), setUpMin: 15, stops })).toBe(7);
    expect(realMinPerPart({ ...run(100), madeCount: 0 })).toBeNull();
  });
});

describe('cell of a step', () => {
  const cells = [
    { id: '1', code: 'B1', kind: 'booth' as const, queuedMin: 0 },
    { id: '2', code: 'R1', kind: 'robot' as const, queuedMin: 500 },
    { id: '3', code: 'R2', kind: 'robot' as const, queuedMin: 100 },
  ];
  const propose = (cellKind: 'booth' | 'robot', setUpCellIds: string[], from = cells) =>
    proposeCell({ cellKind, cells: from, setUpCellIds: new Set(setUpCellIds) })?.code ?? null;

  it('prefers a kept set-up, then the shortest run queue, of the kind of the step', () => {
    expect(propose('robot', ['2'])).toBe('R1');
    expect(propose('robot', ['2', '3'])).toBe('R2');
    expect(propose('robot', [])).toBe('R2');
    expect(propose('booth', ['2'])).toBe('B1');
  });

  it('proposes nothing where the shop has no such cell', () => {
    expect(propose('robot', [], cells.slice(0, 1))).toBeNull();
  });
});

describe('ordered revision', () => {
  const lastMade = { revision: 'B', on: '2026-03-14' };

  it('is unchanged, made for the first time, or another one', () => {
    expect(revisionAnswer({ ordered: 'b', released: 'B', lastMade })).toEqual({
      state: 'unchanged',
      words: 'unchanged since 14 Mar 2026',
      note: 'ok',
    });
    expect(revisionAnswer({ ordered: 'C', released: 'B', lastMade })).toEqual({
      state: 'different',
      words: 'revision B made last, C ordered: compare before release',
      note: 'stop',
    });
    expect(revisionAnswer({ ordered: 'C', released: 'C', lastMade }).state).toBe('firstTime');
    expect(revisionAnswer({ ordered: 'A', released: 'A', lastMade: null }).state).toBe('firstTime');
  });

  it('names the released revision where it says more than the one made last', () => {
    const words = (facts: Parameters<typeof revisionAnswer>[0]) => revisionAnswer(facts).words;
    expect(words({ ordered: 'B', released: 'C', lastMade })).toBe(
      'revision C released, B ordered: compare before release',
    );
    expect(words({ ordered: 'B', released: 'C', lastMade: null })).toBe(
      'revision C released, B ordered: compare before release',
    );
  });
});

describe('what a step needs', () => {
  const setUp: KeptSetUp = {
    frozenOn: '2026-03-14',
    wireItemId: 'w',
    wireName: 'solid wire 1.2',
    wireDiameterMm: 1.2,
    wireSpeedMMin: 8,
    travelMmMin: 400,
    gasItemId: 'g',
    gasName: 'mixed gas',
    program: { name: 'P210', revision: '4', backupPlace: 'office drive' },
    programRevision: '4',
    fixture: { code: 'FX-031', place: 'B2-3', condition: 'good' },
  };
  const wire = {
    itemId: 'w',
    itemName: 'solid wire 1.2',
    kind: 'wire',
    unit: 'kg',
    leftAmount: 3.2,
  };
  const gas = { itemId: 'g', itemName: 'mixed gas', kind: 'gas', unit: 'l', leftAmount: 5000 };
  const step: StepFacts = {
    number: 1,
    cell: { code: 'R1', kind: 'robot' },
    wpsNumber: 'WPS-014',
    approvedWps: { number: 'WPS-014', revision: 3 },
    setUp,
    loaded: [wire, gas],
    weldLengthMm: 1000,
    quantity: 12,
    qualifiedPeople: 2,
  };
  const note = (topic: string, facts: Partial<StepFacts>) =>
    stepNotes({ ...step, ...facts }).find((each) => each.topic === topic);

  it('is all there', () => {
    expect(stepNotes(step).map(({ state }) => state)).not.toContain('check');
    expect(note('fixture', {})?.text).toBe('step 1: FX-031 at B2-3, good');
  });

  it('compares the wire of the batch with what is on the feeder', () => {
    // 1 m at 400 mm/min is 2.5 min; 8 m/min feed 20 m; pi/4 x 1.2^2 x 7.85 = 8.878 g/m, so 177.6 g a part, 2.13 kg for 12.
    expect(note('wire', {})).toEqual({
      topic: 'wire',
      state: 'ok',
      text: 'step 1: solid wire 1.2: 2.13 kg needed, 3.20 kg on the feeder',
    });
    expect(note('wire', { loaded: [{ ...wire, leftAmount: 2.1 }] })?.state).toBe('check');
    const noSpeed = { ...setUp, wireSpeedMMin: null };
    expect(note('wire', { setUp: noSpeed })?.text).toContain('cannot be said');
    expect(note('wire', { loaded: [] })?.text).toContain('no wire loaded at R1');
  });

  it.each<[string, 'check' | 'stop', Partial<StepFacts>]>([
    ['procedure', 'stop', { approvedWps: null }],
    ['procedure', 'check', { wpsNumber: null, approvedWps: null }],
    ['people', 'stop', { qualifiedPeople: 0 }],
    ['cell', 'check', { setUp: null }],
    ['gas', 'check', { loaded: [wire] }],
    ['program', 'check', { setUp: { ...setUp, program: null } }],
    ['program', 'check', { setUp: { ...setUp, programRevision: '3' } }],
    [
      'fixture',
      'check',
      { setUp: { ...setUp, fixture: { code: 'FX-031', place: 'B2-3', condition: 'repair' } } },
    ],
  ])('names a lack of %s as %s', (topic, state, facts) => {
    expect(note(topic, facts)?.state).toBe(state);
  });
});
