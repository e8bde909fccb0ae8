import type { PlanProblem } from '../planning/problem.js';

/** Works off minute by minute: a second route to the finish, without the tables of the planner. */
function finishByMinutes(problem: PlanProblem, cell: number, earliest: number, minutes: number) {
  const { hours } = problem.cells[cell]!;
  const end = hours?.at(-1)?.toMin ?? -Infinity;
  const open = (minute: number) =>
    !hours || minute >= end || hours.some((each) => each.fromMin <= minute && minute < each.toMin);
  let minute = earliest;
  while (!open(minute)) minute += 1;
  const start = minute;
  for (let left = minutes; left > 0; minute += 1) if (open(minute)) left -= 1;
  return { start, finish: minute };
}

/**
 * The least cost over every order at every cell, by trying them all: each step in turn is appended to each lane.
 * Steps that wait for others are appended after them, which reaches every order that can run.
 */
export function bruteCost(problem: PlanProblem): number {
  const { cells, steps, setupMin } = problem;
  const finishOfStep = new Map<string, number>();
  const lanes = cells.map((cell) => ({ last: 0, time: cell.freeFromMin }));
  let best = Infinity;
  const grow = (cost: number): void => {
    if (cost >= best) return;
    if (finishOfStep.size === steps.length) {
      best = cost;
      return;
    }
    steps.forEach((step, at) => {
      if (finishOfStep.has(step.id)) return;
      if (!(step.after ?? []).every((id) => finishOfStep.has(id))) return;
      const ready = Math.max(
        step.releaseMin,
        ...(step.after ?? []).map((id) => finishOfStep.get(id)!),
      );
      lanes.forEach((lane, cell) => {
        const work = step.processingMin[cell];
        if (work === null || work === undefined) return;
        const { last, time } = lane;
        const minutes = work + (setupMin?.[cell]?.[last]?.[at] ?? 0);
        const { start, finish } = finishByMinutes(problem, cell, Math.max(time, ready), minutes);
        const { announced } = step;
        const moved =
          announced && (announced.cell !== cells[cell]!.id || start > announced.startMin);
        lane.last = at + 1;
        lane.time = finish;
        finishOfStep.set(step.id, finish);
        grow(cost + Math.max(finish - step.dueMin, 0) * step.weight + (moved ? announced.cost : 0));
        finishOfStep.delete(step.id);
        lane.last = last;
        lane.time = time;
      });
    });
  };
  grow(0);
  return best;
}
