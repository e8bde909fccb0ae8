import { describe, expect, it } from 'vitest';
import { anyLanes, planOf, type PlanShape } from '../testing/plans.js';
import { buildOrder } from './build.js';
import { newWalk, walkLanes } from './evaluate.js';
import type { PlanProblem } from './problem.js';
import { evaluateOrder, planOrder, searchOrder } from './search.js';
import { stopAfterSlices } from './stop.js';
import { tablesOf } from './tables.js';

function planned(problem: PlanProblem, { seed = 1, slices = 20 } = {}) {
  const plan = planOrder({ problem, seed, shouldStop: stopAfterSlices(slices) });
  if (!plan.ok) throw new Error(plan.refusal.allowed);
  return plan;
}

const larger: [string, Omit<PlanShape, 'seed'>][] = [
  ['one cell with set-ups', { steps: 30, cells: 1, setup: true }],
  ['three cells with releases', { steps: 30, cells: 3, setup: true, releases: true, choosy: true }],
  ['calendars and waiting steps', { steps: 25, cells: 3, setup: true, hours: true, waits: true }],
];

describe.each(larger)('a search over %s', (_, shape) => {
  const problem = planOf({ ...shape, seed: 5 });

  it('gives the same order for the same seed', () => {
    expect(planned(problem)).toEqual(planned(problem));
  });

  it('is never worse than the rule it begins with, and its cost is the walk of its lanes', () => {
    for (let seed = 1; seed <= 5; seed += 1) {
      const other = planOf({ ...shape, seed });
      const tables = tablesOf(other);
      const rule = walkLanes(tables, buildOrder(tables), newWalk(tables));
      const plan = planned(other, { slices: 3 });
      expect(plan.cost).toBeLessThanOrEqual(rule);
      expect(evaluateOrder({ problem: other, lanes: plan.lanes })).toMatchObject({
        cost: plan.cost,
      });
    }
  });

  it('gets no dearer with more slices', () => {
    const costs = [0, 1, 5, 25].map((slices) => planned(problem, { slices }).cost);
    expect(costs).toEqual([...costs].sort((left, right) => right - left));
    expect(costs[3]).toBeLessThan(costs[0]!);
  });

  it('leaves nothing behind when it is stopped', () => {
    const before = JSON.stringify(problem);
    const undisturbed = planned(problem);
    const begun = searchOrder({ problem, seed: 9 });
    if (!begun.ok) throw new Error(begun.refusal.allowed);
    begun.search.improve();
    expect(planned(problem)).toEqual(undisturbed);
    expect(JSON.stringify(problem)).toBe(before);
  });
});

describe('a search over several cells', () => {
  it('keeps every step once, also when a step leaves the end of a lane', () => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const problem = planOf({ seed, steps: 25, cells: 4, setup: true });
      const { lanes, cost } = planned(problem, { seed, slices: 40 });
      expect(lanes.flat().sort()).toEqual(problem.steps.map((step) => step.id).sort());
      expect(evaluateOrder({ problem, lanes })).toMatchObject({ ok: true, cost });
    }
  });
});

describe('held work', () => {
  it('stays at its cell and its place, and the rest is put in order around it', () => {
    for (const steps of [8, 20]) {
      for (let seed = 1; seed <= 8; seed += 1) {
        const base = planOf({ seed, steps, cells: 2, setup: true });
        const today = anyLanes(base, seed);
        const first = today.find((lane) => lane.length > 0)![0];
        const pinned = today.findLast((lane) => lane.length > 2)![2];
        const problem: PlanProblem = {
          ...base,
          today,
          steps: base.steps.map((step) => {
            if (step.id === first) return { ...step, hold: 'started' as const };
            return step.id === pinned ? { ...step, hold: 'pinned' as const } : step;
          }),
        };
        const { lanes, cost } = planned(problem);
        for (const id of [first!, pinned!]) {
          const cell = today.findIndex((lane) => lane.includes(id));
          expect(lanes[cell]!.indexOf(id)).toBe(today[cell]!.indexOf(id));
        }
        const now = evaluateOrder({ problem, lanes: today });
        expect(now.ok && cost <= now.cost).toBe(true);
      }
    }
  });

  it('that is all there is leaves the order as it is, and says so', () => {
    const base = planOf({ seed: 3, steps: 5, cells: 2, setup: true });
    const today = anyLanes(base, 3);
    const steps = base.steps.map((step) => ({ ...step, hold: 'pinned' as const }));
    const plan = planned({ ...base, steps, today });
    expect(plan.lanes).toEqual(today);
    expect(plan.notes.map((note) => note.code)).toContain('allHeld');
  });
});

describe('independent: announced work', () => {
  // One cell. "b" first costs nothing late; but "a" was told 0: starting it at 10 costs 50.
  const step = (id: string, dueMin: number, cost: number) => ({
    id,
    customer: id,
    weight: 1,
    dueMin,
    releaseMin: 0,
    processingMin: [10],
    announced: { cell: 'c', startMin: 0, cost },
  });
  const cells = [{ id: 'c', freeFromMin: 0 }];

  it('moves only when the move saves more than it costs', () => {
    // a before b: b ends at 20, 10 late, and starts later than told (1): 11. b before a: 0 late, 50 for a.
    expect(planned({ cells, steps: [step('a', 20, 50), step('b', 10, 1)] })).toMatchObject({
      lanes: [['a', 'b']],
      cost: 11,
    });
    // With 5 instead of 50 it is worth it: b before a costs 5.
    expect(planned({ cells, steps: [step('a', 20, 5), step('b', 10, 1)] })).toMatchObject({
      lanes: [['b', 'a']],
      cost: 5,
    });
  });
});
