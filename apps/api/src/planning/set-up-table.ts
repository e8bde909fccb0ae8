import type { LaneOrder } from '@tackboard/calc';
import { changeOverMin, type SetUpNeed } from './change-over.js';
import type { Plan, PlanSetUp } from './plan.js';

function needAt({ stepId, setUpMin, kept }: PlanSetUp, cell: number): SetUpNeed {
  return { stepId, setUpMin, kept: kept[cell] ?? null };
}

/**
 * Minutes of the clock to set each step up after each other one, per cell, as the search reads them. Steps that
 * leave a cell in the same state share a row.
 */
export function setUpTable({ setUps, pace }: Plan): number[][][] {
  return pace.map((share, cell) => {
    const needs = setUps.map((setUp) => needAt(setUp, cell));
    const rowAfter = (from: SetUpNeed | null) =>
      needs.map((to) => Math.ceil(changeOverMin(from, to) / share));
    const rows = new Map<string, number[]>();
    const shared = (from: SetUpNeed) => {
      const key = JSON.stringify([from.stepId, from.kept]);
      const row = rows.get(key) ?? rowAfter(from);
      rows.set(key, row);
      return row;
    };
    return [rowAfter(null), ...needs.map(shared)];
  });
}

/** Job minutes of change-over in all lanes. */
export function changeOverOf(plan: Plan, lanes: LaneOrder): number {
  const at = new Map(plan.problem.steps.map(({ id }, index) => [id, index]));
  return lanes.reduce((sum, lane, cell) => {
    const needs = lane.flatMap((id) => {
      const setUp = plan.setUps[at.get(id) ?? -1];
      return setUp === undefined ? [] : [needAt(setUp, cell)];
    });
    return needs.reduce((all, to, place) => all + changeOverMin(needs[place - 1] ?? null, to), sum);
  }, 0);
}
