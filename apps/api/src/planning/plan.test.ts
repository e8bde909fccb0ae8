import type { Cell, CellHours, Lane, QueuedStep, Weld } from '@tackboard/contract';
import { startingPolicy } from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import type { CertificateFacts } from '../queue/facts.js';
import type { KeptSetUp } from './change-over.js';
import { preparePlan, type ShopFacts } from './plan.js';
import { changeOverIn, setUpTable } from './set-up-table.js';
import type { StepPlanFacts } from './store.js';

/** Monday 5 October 2026, 07:00 in Berlin, and some seconds. */
const now = new Date('2026-10-05T05:00:40Z');
const kept: KeptSetUp = {
  ...{ wireItemId: 'w', gasItemId: 'g', torch: '', fixtureId: 'f1', programId: 'p1' },
};

function cell(id: string, changes: Partial<Cell> = {}): Cell {
  return {
    ...{ id, version: 1, active: true, code: id, name: id, kind: 'robot', processes: ['135'] },
    ...{ mechanisation: 'fullyMechanised', stations: 1, sourceRatingA: null, torchRatingA: null },
    ...{ sourceRatingPct: null, torchRatingPct: null, torchMaxA: null, torchRatingGas: null },
    ...{ reachMm: null, loadKg: null, travelUnit: 'mm/min', planningFactor: 0.8 },
    ...{ gasLossFactor: 1, extraction: '', calendar: { shifts: [], dayChanges: [] } },
    ...changes,
  };
}

function hours(cellId: string, share = 0.8): CellHours {
  const span = { from: '2026-10-05T05:00:40Z', to: '2026-10-05T13:00:00Z' };
  return { cellId, windows: [{ ...span, share, staffed: true }], losses: [] };
}

function step(id: string, changes: Partial<QueuedStep> = {}): QueuedStep {
  return {
    ...{ id, version: 1, jobId: `job ${id}`, jobNumber: 700, stepNumber: 1, stepName: 'Weld' },
    ...{ partNumber: 'X-1', partName: 'Bracket', revision: 'B', customerName: 'Nordhang' },
    ...{
      quantity: 10,
      goodCount: 0,
      scrapCount: 0,
      quarantinedCount: 0,
      dueOn: '2026-10-06',
      weldBy: '2026-10-06',
      state: 'waiting',
    },
    ...{ plannedMin: 90, setUpMin: 30, kitComplete: true, released: true, coded: false },
    ...{ late: false, wpsNumber: null, holder: null },
    ...changes,
  };
}

function lane(cellId: string, steps: QueuedStep[]): Lane {
  return { cellId, cellCode: cellId, cellName: cellId, cellKind: 'robot', queuedMin: 0, steps };
}

/** No weld and no kept set-up: nothing of it rules a cell out. */
const cycle: StepPlanFacts['cycle'] = {
  ...{ setUpMin: 25, firstPieceMin: 15, unitMin: 5, cellKind: 'robot', welds: [], setUps: [] },
  ...{ startStopS: 1.5, airMovesS: 30, cleaningS: 6, loadS: 95 },
};

const dialled = (cellId: string, currentA: number | null = null) => ({
  mechanisation: 'fullyMechanised',
  ...{ cellId, currentA, travelMmMin: 520, wireSpeedMMin: 9, wireDiameterMm: 1.2 },
});

function operatorAt(cellId: string): CertificateFacts {
  return {
    ...{ id: `c ${cellId}`, number: `C ${cellId}`, kind: 'operator', code: 'ISO 14732', cellId },
    ...{ personId: 'p3', personCode: 'O03', personName: 'Operator', process: '135' },
    ...{ jointTypes: [], positions: [], materialGroups: [], fillerGroups: [] },
    ...{ thicknessMinMm: null, thicknessMaxMm: null, testedOn: '2025-08-12' },
    ...{ renewalRoute: null, functionTestOn: '2025-08-12', revokedOn: null },
    ...{ validUntil: '2027-08-12', confirmedOn: '2026-08-12' },
  };
}

function known(stepId: string, changes: Partial<StepPlanFacts> = {}): StepPlanFacts {
  return {
    ...{ stepId, processes: ['135'], mechanisations: [], code: null },
    ...{ setUps: new Map(), cycle, handling: { massKg: 120, reachMm: 900 } },
    ...changes,
  };
}

function shop(lanes: Lane[], facts: Partial<ShopFacts> = {}): ShopFacts {
  const steps = lanes.flatMap((one) => one.steps);
  return {
    ...{ lanes, now, timeZone: 'Europe/Berlin' },
    steps: new Map(steps.map(({ id }) => [id, known(`step of ${id}`)])),
    cells: lanes.map(({ cellId }) => cell(cellId)),
    hours: lanes.map(({ cellId }) => hours(cellId)),
    learnt: new Map(),
    certificates: lanes.map(({ cellId }) => operatorAt(cellId)),
    policy: startingPolicy,
    ...facts,
  };
}

const problemOf = (facts: ShopFacts) => preparePlan(facts).plan.problem;

describe('the run queues as a problem', () => {
  it('count whole minutes from now, work without its setting up over the share of the hours', () => {
    const { plan } = preparePlan(shop([lane('R1', [step('a')])]));
    expect(plan.problem.cells).toEqual([
      { id: 'R1', freeFromMin: 0, hours: [{ fromMin: 1, toMin: 480 }] },
    ]);
    expect(plan.problem.steps).toEqual([
      {
        ...{ id: 'a', customer: 'Nordhang', weight: 1, releaseMin: 0 },
        // The end of 6 October in Berlin is 22:00 in UTC: 41 h after 05:00 UTC of the 5th.
        dueMin: 41 * 60,
        // (90 - 30) / 0.8
        processingMin: [75],
      },
    ]);
    expect(plan.problem.today).toEqual([['a']]);
    expect(plan.pace).toEqual([0.8]);
    // 30 / 0.8 = 37.5, and a begun minute counts.
    expect(setUpTable(plan)).toEqual([[[38], [0]]]);
  });

  it('end a due day when it ends in the shop, also on the day the clock goes back', () => {
    // 25 October 2026 has 25 hours in Berlin and ends at 23:00 UTC.
    const late = { now: new Date('2026-10-25T22:00:00Z') };
    const { steps } = problemOf(shop([lane('R1', [step('a', { weldBy: '2026-10-25' })])], late));
    expect(steps[0]?.dueMin).toBe(60);
  });

  it('hold what is begun where it is, with the rest of its work and its cell set up', () => {
    const held = step('a', { state: 'held', goodCount: 4, scrapCount: 1 });
    const { plan } = preparePlan(shop([lane('R1', [held]), lane('R2', [])]));
    const [first] = plan.problem.steps;
    // Half of 60 min is left: 30 / 0.8 = 37.5.
    expect(first).toMatchObject({ hold: 'started', processingMin: [38, null] });
    expect(plan.setUps[0]?.setUpMin).toBe(0);
  });

  it('let a step wait for the open step of its job before it, and for no other', () => {
    const job = { jobId: 'j', jobNumber: 701 };
    const lanes = [
      lane('R1', [step('b', { ...job, stepNumber: 2, state: 'blocked' }), step('x')]),
      lane('R2', [step('a', { ...job, stepNumber: 1 })]),
    ];
    const { steps } = problemOf(shop(lanes));
    expect(steps.map(({ id, after }) => [id, after])).toEqual([
      ['b', ['a']],
      ['x', undefined],
      ['a', undefined],
    ]);
  });

  it('offer a step the cells of its kind that are in use, have its process and fit its procedure', () => {
    const cells = [
      cell('R1'),
      cell('R2'),
      cell('R3', { processes: ['136'] }),
      cell('R4', { active: false }),
      cell('R5', { mechanisation: 'automatic' }),
      cell('M1', { kind: 'booth' }),
    ];
    const lanes = cells.map(({ id }) => lane(id, id === 'R1' ? [step('a')] : []));
    const mechanisations = ['fullyMechanised'];
    const steps = new Map([['a', known('s', { mechanisations })]]);
    const [first] = problemOf(shop(lanes, { cells, steps })).steps;
    expect(first?.processingMin).toEqual([75, 75, null, null, null, null]);
  });

  it('keep a step to the cells for which a set-up is kept, and to where it stands', () => {
    const cells = ['R1', 'R2', 'R3'].map((id) => cell(id));
    const lanes = [lane('R1', [step('a')]), lane('R2', []), lane('R3', [])];
    const steps = new Map([['a', known('s', { cycle: { ...cycle, setUps: [dialled('R3')] } })]]);
    const [first] = problemOf(shop(lanes, { cells, steps })).steps;
    expect(first?.processingMin).toEqual([75, null, 75]);
  });

  it('take the mechanisation that a kept set-up says over the one the cell usually has', () => {
    const cells = [cell('R1'), cell('R2', { mechanisation: 'partlyMechanised' })];
    const lanes = cells.map(({ id }) => lane(id, id === 'R1' ? [step('a')] : []));
    const at = (setUps: ReturnType<typeof dialled>[]) => {
      const facts = { mechanisations: ['fullyMechanised'], cycle: { ...cycle, setUps } };
      const steps = new Map([['a', known('s', facts)]]);
      return problemOf(shop(lanes, { cells, steps })).steps[0]?.processingMin;
    };
    expect(at([])).toEqual([75, null]);
    expect(at([dialled('R2')])).toEqual([75, 75]);
  });

  it('offer no cell whose torch does not hold at the duty there, where all for it is on file', () => {
    // Two stations: 110.8 s of arc in 158.8 s, 69.8 %; 250 A x sqrt(60 / 69.8) = 231.8 A. One: 280.4 A.
    const weld = {
      ...{
        number: 1,
        process: '135',
        jointType: 'fillet',
        position: 'PB',
        lengthMm: 120,
        count: 8,
      },
      ...{ thicknessAMm: 6, thicknessBMm: 12 },
    } as Weld;
    const small = { torchRatingA: 250, torchRatingPct: 60, torchMaxA: 300 };
    const cells = [
      ...[cell('R1', small), cell('R2', { ...small, stations: 2 })],
      ...[cell('R3', { stations: 2 }), cell('R4', small)],
    ];
    const lanes = cells.map(({ id }) => lane(id, id === 'R4' ? [step('a')] : []));
    const setUps = ['R1', 'R2', 'R3', 'R4'].map((id) => dialled(id, 255));
    const at = (changes: object) => {
      const steps = new Map([
        ['a', known('s', { cycle: { ...cycle, welds: [weld], setUps, ...changes } })],
      ]);
      const certificates = lanes.map(({ cellId }) => ({
        ...operatorAt(cellId),
        ...{ jointTypes: ['fillet'], positions: ['PB'], thicknessMinMm: 3, thicknessMaxMm: 12 },
      }));
      const [first] = problemOf(shop(lanes, { cells, steps, certificates })).steps;
      return first?.processingMin.map((minutes) => minutes !== null);
    };
    expect(at({})).toEqual([true, false, true, true]);
    expect(at({ setUps: setUps.map((each) => ({ ...each, currentA: 230 })) })).toEqual(
      cells.map(() => true),
    );
    expect(at({ loadS: 0 })).toEqual(cells.map(() => true));
  });

  it('offer no cell that the part is too heavy or too large for', () => {
    const cells = [
      ...[cell('R1'), cell('R2', { loadKg: 100 }), cell('R3', { reachMm: 850 })],
      cell('R4', { loadKg: 120, reachMm: 900 }),
    ];
    const lanes = cells.map(({ id }) => lane(id, id === 'R1' ? [step('a')] : []));
    const [first] = problemOf(shop(lanes, { cells })).steps;
    expect(first?.processingMin).toEqual([75, null, null, 75]);
  });

  it('offer no robot for which nobody holds a certificate today, but let a step stay where it is', () => {
    const lanes = [lane('R1', [step('a')]), lane('R2', []), lane('R3', [])];
    const lapsed = { ...operatorAt('R3'), confirmedOn: '2026-03-30', validUntil: null };
    const certificates = [operatorAt('R2'), lapsed];
    const [first] = problemOf(shop(lanes, { certificates })).steps;
    expect(first?.processingMin).toEqual([75, 75, null]);
  });

  it('leave queues without hours as they are, with all that waits for them, and say so', () => {
    const job = { jobId: 'j', jobNumber: 701 };
    const lanes = [
      lane('R1', [step('b', { ...job, stepNumber: 2 }), step('x')]),
      lane('R2', [step('a', { ...job, stepNumber: 1 })]),
    ];
    const { plan, notes } = preparePlan(shop(lanes, { hours: [hours('R1')] }));
    expect(plan.problem.today).toEqual([['x']]);
    expect(notes).toEqual([expect.stringContaining('R2 has no working hours: 2 steps')]);
  });
});

describe('the set-up table', () => {
  const facts = new Map(
    [kept, { ...kept, fixtureId: 'f2' }, kept].map((setUp, at) => [
      'abc'.charAt(at),
      known(`s${at}`, { setUps: new Map([['R1', setUp]]) }),
    ]),
  );
  const lanes = [lane('R1', [step('a'), step('b'), step('c')])];
  const { plan } = preparePlan(shop(lanes, { steps: facts, hours: [hours('R1', 0.5)] }));

  it('has the whole setting up first and the changes after each step, in minutes of the clock', () => {
    // A change of fixture is 10 min, a whole setting up 30 min; both over 0.5.
    expect(setUpTable(plan)).toEqual([
      [
        [60, 60, 60],
        [0, 20, 0],
        [20, 0, 20],
        [0, 20, 0],
      ],
    ]);
  });

  it('sums the change-over of an order in job minutes', () => {
    expect(changeOverIn(plan)([['a', 'b', 'c']])).toBe(30 + 10 + 10);
    expect(changeOverIn(plan)([['a', 'c', 'b']])).toBe(30 + 0 + 10);
  });
});
