import type { Tables } from './tables.js';

/**
 * The order at every cell with the running sums that let a change be judged without walking the whole lane.
 * Position 0 of a lane is the state in which the cell is found; the steps stand at 1 to `length`.
 */
export interface Lane {
  cell: number;
  length: number;
  step: Int32Array;
  finish: Float64Array;
  /** Cost of the steps up to and including a position. */
  cost: Float64Array;
  /** Summed weight of the late steps up to and including a position: the slope of the cost when all shift. */
  lateWeight: Float64Array;
}

export function emptyLane(cell: number, tables: Tables): Lane {
  const places = tables.steps + 2;
  const finish = new Float64Array(places);
  finish[0] = tables.freeFrom[cell]!;
  return {
    cell,
    length: 0,
    step: new Int32Array(places),
    finish,
    cost: new Float64Array(places),
    lateWeight: new Float64Array(places),
  };
}

/** Brings the sums up to date from a position on, after the order there has changed. */
export function refresh(lane: Lane, tables: Tables, from: number): void {
  const { step, finish, cost, lateWeight, length } = lane;
  const { weight, due, release, rows } = tables;
  const span = tables.span[lane.cell]!;
  let before = step[from - 1]!;
  let time = finish[from - 1]!;
  let sum = cost[from - 1]!;
  let slope = lateWeight[from - 1]!;
  for (let at = from; at <= length; at += 1) {
    const id = step[at]!;
    const free = release[id]!;
    time = (time > free ? time : free) + span[before * rows + id]!;
    const late = time - due[id]!;
    if (late > 0) {
      sum += late * weight[id]!;
      slope += weight[id]!;
    }
    finish[at] = time;
    cost[at] = sum;
    lateWeight[at] = slope;
    before = id;
  }
}

export function laneCost(lane: Lane): number {
  return lane.cost[lane.length]!;
}

/**
 * Exact cost of the steps from position `at` to the end when the step before them is `before` and ends at `time`.
 * Ends early, with a value not under `limit`, once the limit is passed; stops walking where nothing shifts any more.
 */
export function tailCost(
  lane: Lane,
  tables: Tables,
  at: number,
  before: number,
  time: number,
  limit: number,
): number {
  const { step, finish, cost, length } = lane;
  const { weight, due, release, rows } = tables;
  const span = tables.span[lane.cell]!;
  let sum = 0;
  let previous = before;
  let now = time;
  for (let place = at; place <= length; place += 1) {
    const id = step[place]!;
    const free = release[id]!;
    now = (now > free ? now : free) + span[previous * rows + id]!;
    if (now === finish[place]) return sum + cost[length]! - cost[place - 1]!;
    const late = now - due[id]!;
    if (late > 0) sum += late * weight[id]!;
    if (sum >= limit) return sum;
    previous = id;
  }
  return sum;
}

/** The lanes as one list, a 0 after each lane; short enough to be kept for every elite order. */
export function saveLanes(lanes: readonly Lane[], order: Int32Array): void {
  let at = 0;
  for (const lane of lanes) {
    for (let place = 1; place <= lane.length; place += 1) order[at++] = lane.step[place]!;
    order[at++] = 0;
  }
}

export function loadLanes(lanes: readonly Lane[], tables: Tables, order: Int32Array): void {
  let at = 0;
  for (const lane of lanes) {
    let place = 0;
    for (; order[at]! > 0; at += 1) lane.step[++place] = order[at]!;
    at += 1;
    lane.length = place;
    refresh(lane, tables, 1);
  }
}

export function lanesCost(lanes: readonly Lane[]): number {
  let sum = 0;
  for (const lane of lanes) sum += laneCost(lane);
  return sum;
}

/** Marks the steps near a change, so that the local search looks at them again. */
export function markChanged(lane: Lane, changed: Uint8Array, from: number, to: number): void {
  const end = Math.min(to + 1, lane.length);
  for (let place = Math.max(from - 4, 1); place <= end; place += 1) changed[lane.step[place]!] = 1;
}
