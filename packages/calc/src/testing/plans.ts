import fc from 'fast-check';
import type { OpenHours, PlanProblem } from '../planning/problem.js';
import { randomFrom } from '../planning/random.js';

export interface PlanShape {
  seed: number;
  steps: number;
  cells: number;
  setup?: boolean;
  releases?: boolean;
  /** Some steps cannot be done at some cells. */
  choosy?: boolean;
  hours?: boolean;
  announced?: boolean;
  /** Some steps wait for others. */
  waits?: boolean;
}

/** Shapes of small problems with all that a shop's own problem may have. */
export const planShapes = fc.record({
  seed: fc.integer({ min: 1, max: 1e9 }),
  steps: fc.integer({ min: 1, max: 14 }),
  cells: fc.integer({ min: 1, max: 3 }),
  setup: fc.boolean(),
  hours: fc.boolean(),
  announced: fc.boolean(),
  waits: fc.boolean(),
  choosy: fc.boolean(),
});

/** A small invented problem; the same shape gives the same one. */
export function planOf(shape: PlanShape): PlanProblem {
  const random = randomFrom(shape.seed);
  const whole = (from: number, to: number) => from + random.below(to - from + 1);
  const cells = Array.from({ length: shape.cells }, (_, at) => ({
    id: `c${at}`,
    freeFromMin: whole(0, 5),
    ...(shape.hours ? { hours: hoursOf(whole) } : {}),
  }));
  const horizon = Math.ceil((shape.steps * 10) / shape.cells);
  const steps = Array.from({ length: shape.steps }, (_, at) => {
    const sure = random.below(shape.cells);
    return {
      id: `s${at}`,
      customer: `customer ${at % 3}`,
      weight: whole(0, 9),
      dueMin: whole(0, horizon),
      releaseMin: shape.releases ? whole(0, horizon / 2) : 0,
      processingMin: cells.map((_, cell) =>
        shape.choosy && cell !== sure && random.below(3) === 0 ? null : whole(1, 15),
      ),
      ...(shape.announced && random.below(2) === 0
        ? { announced: { cell: `c${sure}`, startMin: whole(0, horizon), cost: whole(1, 60) } }
        : {}),
      ...(shape.waits && at > 0 && random.below(3) === 0
        ? { after: [`s${random.below(at)}`] }
        : {}),
    };
  });
  if (!shape.setup) return { cells, steps };
  const setupMin = cells.map(() =>
    Array.from({ length: shape.steps + 1 }, () =>
      Array.from({ length: shape.steps }, () => whole(0, 12)),
    ),
  );
  return { cells, steps, setupMin };
}

function hoursOf(whole: (from: number, to: number) => number): OpenHours[] {
  const hours: OpenHours[] = [];
  let fromMin = whole(0, 4);
  for (let stretch = 0; stretch < 6; stretch += 1) {
    const toMin = fromMin + whole(3, 20);
    hours.push({ fromMin, toMin });
    fromMin = toMin + whole(0, 10);
  }
  return hours;
}

/** Lanes in which every step stands at a cell that can do it, in an order that keeps to what waits. */
export function anyLanes(problem: PlanProblem, seed: number): string[][] {
  const random = randomFrom(seed);
  const lanes: string[][] = problem.cells.map(() => []);
  const waiting = [...problem.steps];
  const placed = new Set<string>();
  while (waiting.length > 0) {
    const free = waiting.filter((step) => (step.after ?? []).every((id) => placed.has(id)));
    const step = free[random.below(free.length)]!;
    const able = step.processingMin.flatMap((minutes, cell) => (minutes === null ? [] : [cell]));
    lanes[able[random.below(able.length)]!]!.push(step.id);
    placed.add(step.id);
    waiting.splice(waiting.indexOf(step), 1);
  }
  return lanes;
}
