import type { LaneOrder } from '@tackboard/calc';
import { changeOversAt, type SetUpNeed } from './change-over.js';
import type { Plan, PlanSetUp } from './plan.js';

export function needAt({ stepId, setUpMin, kept }: PlanSetUp, cell: number): SetUpNeed {
  return { stepId, setUpMin, kept: kept[cell] ?? null };
}

/**
 * Minutes of the clock to set each step up after each other one, per cell, as the search reads them. Steps that
 * leave a cell in the same state share a row; what cannot be done at a cell counts nothing there.
 */
export function setUpTable({ problem, setUps, pace, learnt }: Plan): number[][][] {
  return pace.map((share, cell) => {
    const changeOverMin = changeOversAt(learnt[cell] ?? []);
    const needs = setUps.map((setUp, at) =>
      problem.steps[at]?.processingMin[cell] === null ? null : needAt(setUp, cell),
    );
    const rowAfter = (from: SetUpNeed | null) =>
      needs.map((to) => (to === null ? 0 : Math.ceil(changeOverMin(from, to) / share)));
    const never = needs.map(() => 0);
    const rows = new Map<string, number[]>();
    const shared = (from: SetUpNeed | null) => {
      if (from === null) return never;
      const key = JSON.stringify([from.stepId, from.kept]);
      const row = rows.get(key) ?? rowAfter(from);
      rows.set(key, row);
      return row;
    };
    return [rowAfter(null), ...needs.map(shared)];
  });
}

/** A count of the job minutes of change-over in all lanes of an order. */
export function changeOverIn({ problem, setUps, learnt }: Plan): (lanes: LaneOrder) => number {
  const at = new Map(problem.steps.map(({ id }, index) => [id, index]));
  const changeOvers = problem.cells.map((_, cell) => changeOversAt(learnt[cell] ?? []));
  return (lanes) => {
    let sum = 0;
    lanes.forEach((lane, cell) => {
      const changeOverMin = changeOvers[cell]!;
      let before: SetUpNeed | null = null;
      for (const id of lane) {
        const setUp = setUps[at.get(id) ?? -1];
        if (setUp === undefined) continue;
        const need = needAt(setUp, cell);
        sum += changeOverMin(before, need);
        before = need;
      }
    });
    return sum;
  };
}
