import { describe, expect, it } from 'vitest';
import { shopDay } from '../clock.js';
import { dayWords, weekdayWords } from './day-words.js';
import { median, questionsOf } from './line-questions.js';
import { plannedTimeOf, type StepTimes } from './planned-time-of.js';
import { proposeCell, realMinPerPart, type PastRun } from './planning.js';
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
  const line = {
    ...{ quantity: 12, dueOn: '2026-10-02', pastDueReason: null },
    ...{ quantityConfirmed: false, partConfirmed: false },
  };
  const facts = {
    ...{ today: '2026-09-01', usualQuantity: 12 },
    part: { number: 'X-210-01', keptFor: null },
  };

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

  it('asks whether a part kept for another customer is meant, until it is confirmed', () => {
    const kept = { ...facts, part: { number: 'X-210-01', keptFor: 'Alder' } };
    expect(questionsOf(line, kept)).toEqual([
      {
        ...{ code: 'NEEDS_CONFIRMATION', field: 'partId', given: 'X-210-01' },
        text: 'X-210-01 is kept for Alder, and this customer has never ordered it. Confirm that it is the part that is meant, or choose another.',
        allowed: 'a part that this customer has ordered before, or any part once confirmed',
      },
    ]);
    expect(questionsOf({ ...line, partConfirmed: true }, kept)).toEqual([]);
  });

  it('knows no usual quantity for a part never made', () => {
    expect(questionsOf({ ...line, quantity: 9999 }, { ...facts, usualQuantity: null })).toEqual([]);
    expect([median([]), median([8, 2, 4]), median([2, 4])]).toEqual([null, 4, 3]);
  });
});

describe('planned minutes', () => {
  const step: StepTimes = {
    ...{ setUpMin: 30, firstPieceMin: 10, unitMin: 4, cellKind: 'booth', welds: [], setUps: [] },
    ...{ startStopS: 1.5, airMovesS: 0, cleaningS: 0, loadS: 0 },
  };
  const cell = { id: 'R1', stations: 1 };
  const fillet = {
    ...{ jointType: 'fillet', throatMm: 4, legMm: null, grooveDepthMm: null, holeWidthMm: null },
    ...{ thicknessAMm: 8, thicknessBMm: 8, preparation: null },
  };
  const planned = (past: PastRun[], of: Partial<StepTimes> = {}) =>
    plannedTimeOf({ ...step, ...of }, { quantity: 12, past, cell });
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
    expect(planned([])).toEqual({
      ...{ plannedMin: 88, basis: 'typed', runs: 0, lowMin: null, highMin: null },
    });
  });

  it('takes the median of what was measured once there are three runs', () => {
    // 50, 60 and 200 min for 10 parts: median 6 min per part; 30 + 10 + 12 x 6 = 112
    expect(planned([run(50), run(60)])).toMatchObject({ plannedMin: 88, basis: 'typed', runs: 2 });
    // 10th and 90th percentile of 5, 6, 20 min: 5.2 and 17.2 min a part.
    expect(planned([run(50), run(60), run(200)])).toEqual({
      ...{ plannedMin: 112, basis: 'history', runs: 3, lowMin: 102.4, highMin: 246.4 },
    });
  });

  it('sums the cycle of a robot before there are three runs, where all of it is on file', () => {
    const robot: Partial<StepTimes> = {
      ...{ cellKind: 'robot', setUpMin: 25, firstPieceMin: 15, unitMin: 9 },
      ...{
        airMovesS: 30,
        cleaningS: 6,
        loadS: 95,
        welds: [{ ...fillet, lengthMm: 120, count: 8 }],
      },
      setUps: [{ cellId: 'R1', travelMmMin: 520, wireSpeedMMin: 9, wireDiameterMm: 1.2 }],
    };
    // 960 / 520 x 60 = 110.77 s of arc, 8 x 1.5 + 30 + 6 s, 95 s of loading: 253.77 s; 40 + 12 x 4.229 = 90.8
    expect(planned([], robot)).toMatchObject({ plannedMin: 90.8, basis: 'calculation' });
    for (const lacking of [{ loadS: 0 }, { airMovesS: 0 }, { setUps: [] }, { welds: [] }]) {
      expect(planned([], { ...robot, ...lacking })).toMatchObject({
        plannedMin: 148,
        basis: 'typed',
      });
    }
  });

  it('takes as many runs for a prepared groove as its area needs at the settings', () => {
    const preparation = {
      ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60, rootRadiusMm: 0 },
      ...{ capHeightMm: 0 },
    } as const;
    const butt = { ...fillet, jointType: 'butt', throatMm: null, preparation };
    const robot: Partial<StepTimes> = {
      ...{ cellKind: 'robot', setUpMin: 0, firstPieceMin: 0, unitMin: 9 },
      ...{ airMovesS: 30, cleaningS: 6, loadS: 95, welds: [{ ...butt, lengthMm: 500, count: 1 }] },
      setUps: [{ cellId: 'R1', travelMmMin: 600, wireSpeedMMin: 9, wireDiameterMm: 1.2 }],
    };
    // 36.785 / 16.286 mm² = 2.2587 runs of 50 s, 1.5 + 30 + 6 s, 95 s: 245.43 s = 4.0906 min; 12 parts 49.1 min.
    expect(planned([], robot)).toMatchObject({ plannedMin: 49.1, basis: 'calculation' });
    const setUps = [{ cellId: 'R1', travelMmMin: 600, wireSpeedMMin: null, wireDiameterMm: 1.2 }];
    expect(planned([], { ...robot, setUps })).toMatchObject({ plannedMin: 108, basis: 'typed' });
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
  const propose = (
    cellKind: 'booth' | 'robot',
    setUpCellIds: string[],
    {
      from = cells,
      isAble = () => true,
    }: { from?: typeof cells; isAble?: (cell: { code: string }) => boolean } = {},
  ) =>
    proposeCell({ cellKind, cells: from, setUpCellIds: new Set(setUpCellIds), isAble })?.code ??
    null;

  it('prefers a kept set-up, then the shortest run queue, of the kind of the step', () => {
    expect(propose('robot', ['2'])).toBe('R1');
    expect(propose('robot', ['2', '3'])).toBe('R2');
    expect(propose('robot', [])).toBe('R2');
    expect(propose('booth', ['2'])).toBe('B1');
  });

  it('prefers one that has what it takes, among those with a kept set-up first', () => {
    const only = (able: string) => ({ isAble: ({ code }: { code: string }) => code === able });
    expect(propose('robot', [], only('R1'))).toBe('R1');
    expect(propose('robot', ['2', '3'], only('R1'))).toBe('R1');
    expect(propose('robot', ['3'], only('R1'))).toBe('R2');
    expect(propose('robot', [], only('B1'))).toBe('R2');
  });

  it('proposes nothing where the shop has no such cell', () => {
    expect(propose('robot', [], { from: cells.slice(0, 1) })).toBeNull();
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
    ...{ mechanisation: 'fullyMechanised', wireDesignation: 'G3Si1', gasDesignation: 'M21' },
    ...{ currentA: 255, voltageV: 26.5, preheatC: null, gasFlowLMin: 15 },
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
    lackingProcesses: [],
    wpsNumber: 'WPS-014',
    approvedWps: { number: 'WPS-014', revision: 3 },
    setUp,
    loaded: [wire, gas],
    fit: [{ text: 'All welds fit.', state: 'clear', strength: 'pass', clearedBy: null }],
    stock: new Map([
      ['w', 0.01],
      ['g', 0],
    ]),
    ...{ arcLengthMm: 1000, weldCount: 8, gasLossFactor: 1, quantity: 12 },
    qualifiedPeople: ['O03 Orla Winterbeck', 'O05 Per Tilde'],
    current: { allowedA: 280.4, dutyPct: 47.7, of: 'torch' as const },
    nextHours: 'now',
  };
  const note = (topic: string, facts: Partial<StepFacts>) =>
    stepNotes({ ...step, ...facts }).find((each) => each.topic === topic);

  it('is all there', () => {
    for (const each of stepNotes(step))
      expect(each).toMatchObject({ state: 'ok', clearedBy: null });
    expect(note('people', {})?.text).toContain('O03 Orla Winterbeck, O05 Per Tilde hold');
    expect(note('fixture', {})?.text).toBe('step 1: FX-031 at B2-3, good');
  });

  it('compares the wire of the batch with what is on the feeder', () => {
    // 1 m at 400 mm/min is 2.5 min; 8 m/min feed 20 m; pi/4 x 1.2^2 x 7.85 = 8.878 g/m, so 177.6 g a part, 2.13 kg for 12.
    expect(note('wire', {})).toEqual({
      topic: 'wire',
      state: 'ok',
      text: 'step 1: solid wire 1.2: 2.13 kg needed, 3.20 kg on the feeder',
      clearedBy: null,
    });
    const short = { loaded: [{ ...wire, leftAmount: 2.1 }] };
    expect(note('wire', short)).toMatchObject({ state: 'check', clearedBy: 'office' });
    expect(note('wire', { ...short, stock: new Map([['w', 15]]) })).toMatchObject({
      ...{ state: 'ok', clearedBy: null },
      text: 'step 1: solid wire 1.2: 2.13 kg needed, 2.10 kg on the feeder, 15.00 kg in store: the spool is changed at part 12',
    });
    const noSpeed = { ...setUp, wireSpeedMMin: null };
    expect(note('wire', { setUp: noSpeed })?.text).toContain('cannot be said');
    expect(note('wire', { setUp: noSpeed })?.clearedBy).toBe('office');
  });

  it('takes wire from store where another or none is loaded, and has it bought where that is too little', () => {
    const other = [{ ...wire, itemId: 'x', itemName: 'cored wire 1.2' }, gas];
    const stored = (loaded: StepFacts['loaded'], storeKg: number) =>
      note('wire', { loaded, stock: new Map([['w', storeKg]]) });
    expect(stored(other, 15)).toEqual({
      ...{ topic: 'wire', state: 'ok', clearedBy: null },
      text: 'step 1: solid wire 1.2: 2.13 kg needed, cored wire 1.2 loaded at R1, 15.00 kg in store: the spool is changed before the start',
    });
    expect(stored([], 2.14)?.state).toBe('ok');
    expect(stored([], 2.13)).toMatchObject({
      ...{ state: 'check', clearedBy: 'office' },
      text: 'step 1: solid wire 1.2: 2.13 kg needed, no wire loaded at R1, 2.13 kg in store: wire has to be bought',
    });
    const noSpeed = { setUp: { ...setUp, wireSpeedMMin: null }, loaded: [] };
    const unknown = (storeKg: number) =>
      note('wire', { ...noSpeed, stock: new Map([['w', storeKg]]) });
    expect([unknown(1)?.state, unknown(0)?.state]).toEqual(['ok', 'check']);
  });

  it('compares the gas of the batch with what is left in the bottle', () => {
    // 1 m at 400 mm/min: 150 s, and 8 x 1 s before and after: 158 s x 15 l/min = 39.5 l, 474 l for 12.
    expect(note('gas', {})?.text).toBe('step 1: mixed gas: 474 l needed, 5000 l at R1');
    const short = { loaded: [wire, { ...gas, leftAmount: 473 }] };
    expect(note('gas', short)).toMatchObject({ state: 'check', clearedBy: 'office' });
    const other = { loaded: [{ ...gas, itemId: 'x', itemName: 'argon' }] };
    const stored = (facts: Partial<StepFacts>, storeL: number) =>
      note('gas', { ...facts, stock: new Map([['g', storeL]]) });
    expect(stored(short, 1)).toMatchObject({
      state: 'ok',
      text: 'step 1: mixed gas: 474 l needed, 473 l at R1, 1 l in store: it is changed during the batch',
    });
    expect(stored(other, 474)?.text).toBe(
      'step 1: mixed gas: 474 l needed, argon loaded at R1, 474 l in store: it is changed before the start',
    );
    expect([stored(other, 474)?.state, stored(other, 473)?.state]).toEqual(['ok', 'check']);
    expect(note('gas', { setUp: { ...setUp, gasFlowLMin: null } })?.state).toBe('cannotSay');
  });

  it('says in the words of the set-up card what does not fit the procedure', () => {
    const line = { text: 'weld 1: too thick.', clearedBy: 'coordinator' } as const;
    const found = (state: 'notClear' | 'cannotSay', strength: 'gate' | 'refuse') =>
      note('fit', { fit: [{ ...line, state, strength }] });
    expect(found('notClear', 'refuse')).toEqual({
      ...{
        topic: 'fit',
        state: 'stop',
        text: 'step 1: weld 1: too thick',
        clearedBy: 'coordinator',
      },
    });
    expect(found('notClear', 'gate')?.state).toBe('check');
    expect(found('cannotSay', 'gate')?.state).toBe('cannotSay');
  });

  it.each<[string, 'check' | 'stop' | 'cannotSay', Partial<StepFacts>]>([
    ['procedure', 'stop', { approvedWps: null }],
    ['procedure', 'cannotSay', { wpsNumber: null, approvedWps: null }],
    ['people', 'stop', { qualifiedPeople: [] }],
    ['hours', 'stop', { nextHours: null }],
    ['torch', 'stop', { current: { allowedA: 231.8, dutyPct: 69.8, of: 'torch' as const } }],
    ['torch', 'cannotSay', { current: null }],
    ['cell', 'cannotSay', { setUp: null }],
    ['cell', 'check', { lackingProcesses: ['141'] }],
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
    expect(note(topic, facts)?.clearedBy).not.toBeNull();
  });
});
