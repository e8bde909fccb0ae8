import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bruteCost } from '../testing/brute-plan.js';
import { planOf } from '../testing/plans.js';
import { keepsHeld, newWalk, walkLanes } from './evaluate.js';
import { exactOrder } from './exact.js';
import { acceptMoves, explainOrder } from './explain.js';
import type { PlanCell, PlanProblem, PlanStep } from './problem.js';
import { evaluateOrder, planOrder, searchOrder } from './search.js';
import { stayingSteps } from './staying.js';
import { tablesOf } from './tables.js';

const step = (id: string, more: Partial<PlanStep> = {}): PlanStep => ({
  ...{ id, customer: 'A', weight: 1, dueMin: 50, releaseMin: 0, processingMin: [10, 10] },
  ...more,
});
const cells: PlanCell[] = [
  { id: 'robot 1', freeFromMin: 0 },
  { id: 'booth 2', freeFromMin: 0 },
];
const first = (more: Partial<PlanCell>): PlanCell[] => [{ ...cells[0]!, ...more }, cells[1]!];

function refusalOf(problem: PlanProblem): string {
  const begun = searchOrder({ problem, seed: 1 });
  return begun.ok ? 'planned' : `${begun.refusal.argument}: ${begun.refusal.allowed}`;
}
const hours = (...pairs: [number, number][]) =>
  pairs.map(([fromMin, toMin]) => ({ fromMin, toMin }));

describe('a problem is refused in words, at its limits', () => {
  const announced = { cell: 'robot 1', startMin: 0, cost: 1 };
  const minutes = 'Step "a": a number of minutes is needed.';
  const number = 'Step "a": a number of 0 or more is needed.';
  const order =
    'Cell "robot 1": hours come in order, apart from each other, each ending after it begins.';
  const work =
    'Step "a": work takes more than 0 minutes at a cell, or null where it cannot be done.';
  it.each<[Partial<PlanStep>, string]>([
    [{}, 'planned'],
    [{ weight: 0, dueMin: -5, releaseMin: -5 }, 'planned'],
    [{ weight: 1e12 }, 'planned'],
    [{ weight: 1.1e12 }, `steps[0].weight: ${number}`],
    [{ weight: -0.1 }, `steps[0].weight: ${number}`],
    [{ weight: '1' as unknown as number }, `steps[0].weight: ${number}`],
    [{ dueMin: Infinity }, `steps[0].dueMin: ${minutes}`],
    [{ dueMin: -1.1e12 }, `steps[0].dueMin: ${minutes}`],
    [{ releaseMin: NaN }, `steps[0].releaseMin: ${minutes}`],
    [{ announced }, 'planned'],
    [{ announced: { ...announced, startMin: NaN } }, `steps[0].announced.startMin: ${minutes}`],
    [{ announced: { ...announced, startMin: -1 } }, 'planned'],
    [{ announced: { ...announced, cost: -1 } }, `steps[0].announced.cost: ${number}`],
    [
      { announced: { ...announced, cell: 'x' } },
      'steps[0].announced.cell: Step "a" is announced at a cell that is not in the plan.',
    ],
    [{ processingMin: [0.1, null] }, 'planned'],
    [{ processingMin: [10, 0] }, `steps[0].processingMin: ${work}`],
    [{ processingMin: [10, -1] }, `steps[0].processingMin: ${work}`],
    [{ processingMin: [10, Infinity] }, `steps[0].processingMin: ${work}`],
    [
      { processingMin: [10] },
      'steps[0].processingMin: Step "a": one entry per cell is needed, 2 in all.',
    ],
    [
      { processingMin: [null, null] },
      'steps[0].processingMin: Step "a" can be done at no cell that has hours: give minutes for one, or give that cell hours.',
    ],
    [{ after: ['a'] }, 'steps.after: Steps "a" wait for each other: take one of the links out.'],
    [{ after: ['x'] }, 'steps[0].after: Step "a" waits for a step that is not in the plan.'],
  ])('step %o: %s', (more, words) => {
    expect(refusalOf({ cells, steps: [step('a', more)] })).toBe(words);
  });
  it.each<[Partial<PlanCell>, string]>([
    [{ freeFromMin: NaN }, 'cells[0].freeFromMin: Cell "robot 1": a number of minutes is needed.'],
    [{ freeFromMin: -10 }, 'planned'],
    [{ hours: hours([0, 5], [5, 9]) }, 'planned'],
    [{ hours: hours([0, 5], [4, 9]) }, `cells[0].hours: ${order}`],
    [{ hours: hours([5, 5]) }, `cells[0].hours: ${order}`],
    [{ hours: hours([NaN, 5]) }, `cells[0].hours: ${order}`],
    [{ hours: hours([0, Infinity]) }, `cells[0].hours: ${order}`],
    [{ id: 'booth 2' }, 'cells: "booth 2" is there twice: each is named once.'],
  ])('cell %o: %s', (more, words) => {
    expect(refusalOf({ cells: first(more), steps: [step('a')] })).toBe(words);
  });
  it('names a loop without the steps that merely wait for it', () => {
    const steps = [step('a', { after: ['b'] }), step('b', { after: ['a'] }), step('c')];
    expect(refusalOf({ cells, steps: [...steps, step('d', { after: ['c'] })] })).toBe(
      'steps.after: Steps "a", "b" wait for each other: take one of the links out.',
    );
  });
  it.each<[string[][], string]>([
    [[['a'], ['b']], ''],
    [[['a']], 'lanes: One lane per cell is needed, 2 in all.'],
    [[['a', 'x'], ['b']], 'lanes: Step "x" is in a lane but not in the plan.'],
    [[['a', 'b'], ['a']], 'lanes: Step "a" is in the lanes twice.'],
    [[['a'], []], 'lanes: Step "b" is in no lane.'],
    [[['b'], ['a']], 'lanes: Step "a" stands at "booth 2", which cannot do it or has no hours.'],
  ])('lanes %o: %s', (lanes, words) => {
    const steps = [step('a', { processingMin: [10, null] }), step('b')];
    const result = evaluateOrder({ problem: { cells, steps }, lanes });
    expect(result.ok ? '' : `${result.refusal.argument}: ${result.refusal.allowed}`).toBe(words);
  });
  it('started work stands first, several of it too', () => {
    const steps = [step('a', { hold: 'started' }), step('b', { hold: 'started' }), step('c')];
    const today = (...lane: string[]) => refusalOf({ cells, steps, today: [lane, []] });
    expect(today('a', 'b', 'c')).toBe('planned');
    expect(today('a', 'c', 'b')).toBe('today: Step "b" is started: it stands first in its lane.');
  });
});

describe('independent: what is known besides the order, by hand', () => {
  const notes = (problem: PlanProblem) => {
    const begun = searchOrder({ problem, seed: 1 });
    return begun.ok
      ? begun.search.notes.map(({ code, about, words }) => `${code} ${about}: ${words}`)
      : [];
  };
  it('says what will be late in any order, what has no hours, and that all is held', () => {
    expect(notes({ cells, steps: [step('a', { dueMin: 10, releaseMin: 10 })] })).toEqual([]);
    expect(notes({ cells, steps: [step('a', { dueMin: 10, releaseMin: 12 })] })).toEqual([
      'dueBeforeRelease a: Step "a" is due 2 minutes before it can begin: it will be late in any order.',
    ]);
    expect(notes({ cells: first({ hours: [] }), steps: [step('a')] })).toEqual([
      'cellWithoutHours robot 1: Cell "robot 1" has no hours in its calendar: nothing is planned there.',
    ]);
    const held = { cells, steps: [step('a', { hold: 'pinned' })], today: [['a'], []] };
    expect(notes(held)).toEqual([
      'allHeld null: All work is started or pinned: the order stays as it is.',
    ]);
  });
});

describe('independent: the steps that keep their order, by every choice of them', () => {
  it('are as many as can be, in the order of both', () => {
    const orders = fc.tuple(
      fc.shuffledSubarray([1, 2, 3, 4, 5, 6, 7]),
      fc.shuffledSubarray([1, 2, 3, 4, 5, 6, 7]),
    );
    fc.assert(
      fc.property(orders, ([today, proposed]) => {
        const keeps = (chosen: readonly number[]) => {
          const places = chosen.map((each) => today.indexOf(each));
          return places.every((place, at) => place >= 0 && (at === 0 || place > places[at - 1]!));
        };
        const choices = Array.from({ length: 2 ** proposed.length }, (_, mask) =>
          proposed.filter((_each, at) => (mask >> at) % 2 === 1),
        );
        const most = Math.max(...choices.filter(keeps).map(({ length }) => length));
        const staying = stayingSteps(today, proposed);
        expect(staying.size).toBe(most);
        expect(keeps(proposed.filter((each) => staying.has(each)))).toBe(true);
      }),
    );
    expect([...stayingSteps([1, 2], [2, 1])]).toEqual([2]);
    expect([...stayingSteps([], [1])]).toEqual([]);
  });
});

describe('independent: four steps against every order of them', () => {
  it.each([
    { cells: 1, setup: true, releases: true },
    { cells: 2, setup: true, hours: true, choosy: true },
    { cells: 2, announced: true, releases: true },
    { cells: 3, setup: true, announced: true, hours: true, releases: true },
  ])('%o', (shape) => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const problem = planOf({ ...shape, steps: 4, seed });
      const tables = tablesOf(problem);
      const lanes = exactOrder(tables);
      expect(walkLanes(tables, lanes, newWalk(tables)), `seed ${seed}`).toBe(bruteCost(problem));
      expect(lanes.flat().toSorted()).toEqual([1, 2, 3, 4]);
    }
  });

  it('held steps keep their cell and place, and the rest is the best around them', () => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const base = planOf({ seed, steps: 4, cells: 2, setup: true });
      const ids = base.steps.map(({ id }) => id);
      for (const held of [0, 1]) {
        const today = [
          [ids[0]!, ids[1]!],
          [ids[2]!, ids[3]!],
        ];
        const steps = base.steps.map((each, at) =>
          at === held ? { ...each, hold: 'pinned' as const } : each,
        );
        const problem = { ...base, steps, today };
        let least = Infinity;
        for (const lanes of everyOrder(ids)) {
          if (lanes[0]?.[held] !== ids[held]) continue;
          const found = evaluateOrder({ problem, lanes });
          if (found.ok) least = Math.min(least, found.cost);
        }
        const plan = planOrder({ problem, seed: 1, shouldStop: () => true });
        expect(plan).toMatchObject({ ok: true, proven: true, cost: least });
        expect(plan.ok && plan.lanes[0]?.[held]).toBe(ids[held]);
      }
    }
  });
});

function everyOrder(ids: readonly string[]): string[][][] {
  const orders = ids.reduce<string[][]>(
    (before, id) =>
      before.flatMap((order) =>
        Array.from({ length: order.length + 1 }, (_, at) => order.toSpliced(at, 0, id)),
      ),
    [[]],
  );
  return orders.flatMap((order) =>
    Array.from({ length: ids.length + 1 }, (_, cut) => [order.slice(0, cut), order.slice(cut)]),
  );
}

describe('independent: walks and held places, by hand', () => {
  it('a held step stands at its own cell and place alone', () => {
    const steps = [step('a'), step('b', { hold: 'pinned' }), step('c', { hold: 'pinned' })];
    const tables = tablesOf({ cells, steps, today: [['a', 'b'], ['c']] });
    expect(tables.held).toEqual([[[1, 2]], [[0, 3]]]);
    expect(keepsHeld(tables, [[1, 2], [3]])).toBe(true);
    expect(keepsHeld(tables, [[2, 1], [3]])).toBe(false);
    expect(keepsHeld(tables, [[1, 2, 3], []])).toBe(false);
    expect(keepsHeld(tables, [[2], [3, 1]])).toBe(false);
  });
  it('a lane that waits for ever, or a cell that cannot do a step, has no cost', () => {
    const steps = [step('a', { after: ['b'], processingMin: [10, null] }), step('b')];
    const tables = tablesOf({ cells, steps });
    const cost = (...lanes: number[][]) => walkLanes(tables, lanes, newWalk(tables));
    expect(cost([2, 1], [])).toBe(0);
    expect(cost([1], [2])).toBe(0);
    expect(cost([1, 2], [])).toBe(Infinity);
    expect(cost([2], [1])).toBe(Infinity);
  });
  it('an announced start is kept at its cell, and not after its minute', () => {
    const told = (startMin: number, cell = 'robot 1') => ({
      announced: { cell, startMin, cost: 7 },
    });
    const cost = (more: Partial<PlanStep>) => {
      const found = evaluateOrder({
        problem: { cells, steps: [step('x'), step('a', more)] },
        lanes: [['x', 'a'], []],
      });
      return found.ok ? found.steps[0]![1]!.movedCost : null;
    };
    expect([cost(told(10)), cost(told(9)), cost(told(11)), cost(told(10, 'booth 2'))]).toEqual([
      ...[0, 7, 0, 7],
    ]);
  });
  it('no step waits for a release where all are there when the first cell is free', () => {
    const rigid = (...releases: number[]) =>
      tablesOf({
        cells: [
          { id: 'c', freeFromMin: 5 },
          { id: 'd', freeFromMin: 9 },
        ],
        steps: releases.map((releaseMin, at) => step(`s${at}`, { releaseMin })),
      }).rigid;
    expect([rigid(0, 5), rigid(0, 6), rigid(9, 9)]).toEqual([1, 0, 0]);
  });
  it('a problem is plain without calendars, waits, announced starts and held work', () => {
    const plain = (more: Partial<PlanStep>, problem: Partial<PlanProblem> = {}) =>
      tablesOf({ cells, steps: [step('a'), step('b', more)], ...problem }).plain;
    expect(plain({})).toBe(true);
    expect(plain({ after: ['a'] })).toBe(false);
    expect(plain({ announced: { cell: 'robot 1', startMin: 0, cost: 1 } })).toBe(false);
    expect(plain({ hold: 'pinned' }, { today: [['a', 'b'], []] })).toBe(false);
    expect(plain({}, { today: [['a', 'b'], []] })).toBe(true);
    expect(plain({}, { cells: first({ hours: hours([0, 5]) }) })).toBe(false);
  });
});

describe('independent: a proposal of two moves, by hand', () => {
  // Robot: set-ups of 4 min before a, 2 before b after a, 1 before c after a; none at the booth.
  const setupMin = [
    [
      [4, 3, 3],
      [0, 2, 1],
      [5, 0, 5],
      [5, 5, 0],
    ],
    [
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ],
  ];
  const steps = [
    step('a', { customer: 'Hill', dueMin: 14 }),
    step('b', {
      customer: 'Brook',
      dueMin: 20,
      weight: 2,
      announced: { cell: 'robot 1', startMin: 14, cost: 9 },
    }),
    step('c', { customer: 'Brook', dueMin: 30 }),
  ];
  const problem = { cells, steps, setupMin, today: [['a', 'b', 'c'], []] };
  it('names each with its reasons, its cost and its minutes of setting up', () => {
    // Today: a 0 to 14; b 14 to 26, 6 late x 2 = 12; c 26 + 5 + 10 = 41, 11 late: 23 in all.
    // b at the booth: 0 to 10, moved for 9; c 14 + 1 + 10 = 25: 9 in all. Set-ups 4 + 2 + 5, then 4 + 1.
    expect(explainOrder({ problem, proposed: [['a', 'c'], ['b']] })).toEqual({
      ...{ ok: true, todayCost: 23, proposedCost: 9 },
      moves: [
        {
          steps: [{ id: 'b', fromCell: 'robot 1', toCell: 'booth 2', afterStep: null }],
          reasons: [
            { kind: 'lateness', customer: 'Brook', cost: -23, lateMin: -17 },
            { kind: 'announcedStart', customer: 'Brook', cost: 9, lateMin: 0 },
          ],
          ...{ cost: -14, setupMin: -6 },
        },
      ],
    });
  });
  it('makes what is accepted, behind the nearest step that stands there by then', () => {
    const proposed = [['c', 'b'], ['a']];
    const made = (...accepted: string[]) => {
      const answer = acceptMoves({ problem, proposed, accepted });
      return answer.ok ? answer.lanes : answer.refusal;
    };
    expect(made()).toEqual(problem.today);
    expect(made('a')).toEqual([['b', 'c'], ['a']]);
    expect(made('a', 'b', 'c')).toEqual(proposed);
  });
  it('refuses what cannot be planned, does not hold every step, or waits for ever', () => {
    const words = (
      answer: { ok: true } | { ok: false; refusal: { argument: string; allowed: string } },
    ) => (answer.ok ? '' : `${answer.refusal.argument}: ${answer.refusal.allowed}`);
    const proposed = [['a', 'b'], []];
    const missing = 'proposed: Step "c" is in no lane.';
    expect(words(explainOrder({ problem, proposed }))).toBe(missing);
    expect(words(acceptMoves({ problem, proposed, accepted: [] }))).toBe(missing);
    const none = { ...problem, cells: [] };
    expect(words(explainOrder({ problem: none, proposed }))).toMatch(/^cells: At least one cell/);
    expect(words(acceptMoves({ problem: none, proposed, accepted: [] }))).toMatch(/^cells: /);
    const waiting = {
      ...{ cells, today: [['a', 'b'], []] },
      steps: [step('a'), step('b', { after: ['a'] })],
    };
    const stuck = 'In these lanes steps wait for each other for ever: move one of them up.';
    const turned = [['b', 'a'], []];
    expect(words(explainOrder({ problem: waiting, proposed: turned }))).toBe(`proposed: ${stuck}`);
    expect(
      words(explainOrder({ problem: { ...waiting, today: turned }, proposed: waiting.today })),
    ).toBe(`today: ${stuck}`);
    expect(words(acceptMoves({ problem: waiting, proposed: turned, accepted: ['b', 'a'] }))).toBe(
      `accepted: ${stuck}`,
    );
  });
});

describe('independent: where a search begins and ends, by hand', () => {
  const one = [{ id: 'c', freeFromMin: 0 }];
  const plan = (problem: PlanProblem) => planOrder({ problem, seed: 1, shouldStop: () => true });
  const early = (id: string, more: Partial<PlanStep> = {}) =>
    step(id, { processingMin: [10], dueMin: 1000, ...more });
  it('with the lanes of today where no other order is cheaper', () => {
    const steps = ['a', 'b', 'c'].map((id) => early(id));
    for (const today of [
      ['a', 'b', 'c'],
      ['c', 'b', 'a'],
      ['b', 'c', 'a'],
    ]) {
      expect(plan({ cells: one, steps, today: [today] })).toMatchObject({
        lanes: [today],
        cost: 0,
      });
    }
    const waits = [early('a'), early('b'), early('c', { after: ['a'] })];
    const today = ['b', 'a', 'c'];
    expect(plan({ cells: one, steps: waits, today: [today] })).toMatchObject({
      ...{ lanes: [today], cost: 0, proven: true },
    });
  });
  it('with no proof where steps wait and something is late', () => {
    const steps = [early('a'), early('b', { after: ['a'], dueMin: 5 })];
    expect(plan({ cells: one, steps })).toMatchObject({
      lanes: [['a', 'b']],
      cost: 15,
      proven: false,
    });
    expect(
      plan({ cells: one, steps: steps.map((each) => ({ ...each, after: [] })) }),
    ).toMatchObject({
      ...{ lanes: [['b', 'a']], cost: 5, proven: true },
    });
  });
  it('names the works it rests on', () => {
    const found = plan({ cells: one, steps: [early('a')] });
    expect(found.ok && found.sources).toHaveLength(5);
    const cost = evaluateOrder({ problem: { cells: one, steps: [early('a')] }, lanes: [['a']] });
    expect(cost).toMatchObject({ ok: true, sources: ['weightedTardiness'] });
  });
});
