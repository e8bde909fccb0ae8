import { finishOf, openFrom } from './hours.js';
import type { NumberedLanes, Tables } from './tables.js';

/** Start and finish of every step and what each one costs, by step number; reused from walk to walk. */
export interface Walk {
  cost: number;
  start: Float64Array;
  finish: Float64Array;
  /** Weight x minutes late. */
  lateCost: Float64Array;
  /** Cost of an announced start that is not kept. */
  movedCost: Float64Array;
  /** Set-up and work minutes in the order walked. */
  spanMin: Float64Array;
  next: Int32Array;
  before: Int32Array;
  free: Float64Array;
}

export function newWalk(tables: Tables): Walk {
  const places = tables.steps + 1;
  return {
    cost: 0,
    start: new Float64Array(places),
    finish: new Float64Array(places),
    lateCost: new Float64Array(places),
    movedCost: new Float64Array(places),
    spanMin: new Float64Array(places),
    next: new Int32Array(tables.cells),
    before: new Int32Array(tables.cells),
    free: new Float64Array(tables.cells),
  };
}

/** When the steps before this one are all finished; -1 while one of them has not been walked. */
function readyAt(tables: Tables, walk: Walk, step: number): number {
  let ready = tables.release[step]!;
  for (const earlier of tables.after[step]!) {
    const finish = walk.finish[earlier]!;
    if (finish < 0) return -1;
    if (finish > ready) ready = finish;
  }
  return ready;
}

function place(tables: Tables, walk: Walk, cell: number, step: number, ready: number): void {
  const minutes = tables.span[cell]![walk.before[cell]! * tables.rows + step]!;
  const earliest = Math.max(walk.free[cell]!, ready);
  const hours = tables.hours[cell];
  const start = hours ? openFrom(hours, earliest) : earliest;
  const finish = hours ? finishOf(hours, start, minutes) : start + minutes;
  const late = finish - tables.due[step]!;
  const announced = tables.announcedCell[step]!;
  const moved = announced >= 0 && (announced !== cell || start > tables.announcedStart[step]!);
  walk.start[step] = start;
  walk.finish[step] = finish;
  walk.spanMin[step] = minutes;
  walk.lateCost[step] = late > 0 ? late * tables.weight[step]! : 0;
  walk.movedCost[step] = moved ? tables.announcedCost[step]! : 0;
  walk.cost += walk.lateCost[step] + walk.movedCost[step];
  walk.before[cell] = step;
  walk.free[cell] = finish;
}

/**
 * Walks every lane through release dates, set-ups, calendars and the steps that wait for others, and sums the cost:
 * weight x minutes late, and announced starts that are not kept. A step begins, with its set-up, when the cell and
 * the step are both free. The cost is Infinity when steps hold each other up for ever or a step is at a cell that
 * cannot do it.
 */
export function walkLanes(tables: Tables, lanes: Readonly<NumberedLanes>, walk: Walk): number {
  walk.cost = 0;
  walk.next.fill(0);
  walk.before.fill(0);
  walk.free.set(tables.freeFrom);
  walk.finish.fill(-1);
  let left = tables.steps;
  let progress = true;
  while (progress) {
    progress = false;
    for (let cell = 0; cell < tables.cells; cell += 1) {
      const lane = lanes[cell]!;
      let at = walk.next[cell]!;
      for (; at < lane.length; at += 1) {
        const step = lane[at]!;
        if (tables.span[cell]![step] === Infinity) return (walk.cost = Infinity);
        const ready = readyAt(tables, walk, step);
        if (ready < 0) break;
        place(tables, walk, cell, step, ready);
        left -= 1;
        progress = true;
      }
      walk.next[cell] = at;
    }
  }
  if (left > 0) walk.cost = Infinity;
  return walk.cost;
}

/** Whether every held step stands at its place. */
export function keepsHeld(tables: Tables, lanes: Readonly<NumberedLanes>): boolean {
  return tables.held.every((places, cell) =>
    places.every(([at, step]) => lanes[cell]![at] === step),
  );
}
