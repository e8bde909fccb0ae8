import { crossOver } from './improve/cross-over.js';
import { newField, settle, type Field } from './improve/local-search.js';
import { shake } from './improve/shake.js';
import { emptyLane, lanesCost, loadLanes, markChanged, saveLanes } from './lanes.js';
import { randomFrom, type Random } from './random.js';
import type { NumberedLanes, Tables } from './tables.js';

/** A search that is carried on slice by slice. */
export interface Improver {
  cost: () => number;
  lanes: () => NumberedLanes;
  /** Works for a few milliseconds. */
  improve: () => void;
}

interface Elite {
  cost: number;
  order: Int32Array;
}

interface Search {
  field: Field;
  random: Random;
  elites: Elite[];
  best: Elite;
  current: Elite;
  scratch: { kept: Uint8Array; child: Int32Array };
  /** Shakes since the current order last became cheaper. */
  idle: number;
  /** Orders in a row that were no better than the elites. */
  fruitless: number;
}

const elitesMax = 8;
const idleMax = 5;
const fruitlessMax = 160;
const shakesPerSlice = 8;

function lanesOf(order: Int32Array): NumberedLanes {
  const lanes: NumberedLanes = [];
  let lane: number[] = [];
  for (const step of order) {
    if (step > 0) lane.push(step);
    else {
      lanes.push(lane);
      lane = [];
    }
  }
  return lanes;
}

function markAll(field: Field): void {
  for (const lane of field.lanes) markChanged(lane, field.changed, 1, lane.length);
}

/** Takes the order in the lanes as the current one, and as the best when it is. */
function take(search: Search): void {
  const { field, current, best } = search;
  current.cost = lanesCost(field.lanes);
  saveLanes(field.lanes, current.order);
  if (current.cost < best.cost - field.least) {
    best.cost = current.cost;
    best.order.set(current.order);
  }
}

/** Puts the current order among the elites when it is new and good enough. */
function enter(search: Search): void {
  const { elites, current, field } = search;
  const known = elites.some((elite) => Math.abs(elite.cost - current.cost) <= field.least);
  const room = elites.length < elitesMax;
  const worst = elites.reduce((left, right) => (right.cost > left.cost ? right : left), current);
  if (known || (!room && worst === current)) {
    search.fruitless += 1;
    return;
  }
  if (room) elites.push({ cost: current.cost, order: current.order.slice() });
  else {
    worst.cost = current.cost;
    worst.order.set(current.order);
  }
}

/** A new order to improve: a strongly shaken one while elites are few, else a cross of two of them. */
function restart(search: Search): void {
  const { field, random, elites, scratch } = search;
  if (search.fruitless > fruitlessMax) {
    search.fruitless = 0;
    elites.length = 0;
    elites.push({ cost: search.best.cost, order: search.best.order.slice() });
  }
  const one = elites[random.below(elites.length)]!;
  const two = elites[random.below(elites.length)]!;
  if (elites.length < elitesMax && search.fruitless < elitesMax * 3) {
    loadLanes(field.lanes, field.tables, search.current.order);
    shake(field, random, field.tables.steps);
  } else if (one === two) {
    loadLanes(field.lanes, field.tables, one.order);
    shake(field, random, 8);
  } else {
    crossOver(one.order, two.order, random, scratch);
    loadLanes(field.lanes, field.tables, scratch.child);
    markAll(field);
  }
  settle(field, random.below(field.lanes.length));
  take(search);
  search.idle = 0;
}

function attempt(search: Search): void {
  const { field, random, current } = search;
  if (search.idle >= idleMax) {
    enter(search);
    restart(search);
    return;
  }
  shake(field, random, 2);
  settle(field, random.below(field.lanes.length));
  const cost = lanesCost(field.lanes);
  search.idle = cost < current.cost - field.least ? 0 : search.idle + 1;
  if (cost <= current.cost) take(search);
  else loadLanes(field.lanes, field.tables, current.order);
}

/**
 * Iterated local search with elites for problems without calendars, waiting steps and held work: shaken and crossed
 * orders are improved by block moves, exchanges and moves between cells.
 */
export function improveLanes(tables: Tables, start: NumberedLanes, seed: number): Improver {
  const lanes = start.map((_, cell) => emptyLane(cell, tables));
  const field = newField(tables, lanes);
  const places = tables.steps + tables.cells;
  const order = Int32Array.from(start.flatMap((lane) => [...lane, 0]));
  loadLanes(lanes, tables, order);
  const search: Search = {
    field,
    random: randomFrom(seed),
    elites: [],
    best: { cost: lanesCost(lanes), order },
    current: { cost: Infinity, order: new Int32Array(places) },
    scratch: { kept: new Uint8Array(tables.steps + 1), child: new Int32Array(places) },
    idle: 0,
    fruitless: 0,
  };
  markAll(field);
  settle(field, 0);
  take(search);
  return {
    cost: () => search.best.cost,
    lanes: () => lanesOf(search.best.order),
    improve: () => {
      for (let time = 0; time < shakesPerSlice && search.best.cost > 0; time += 1) attempt(search);
    },
  };
}
