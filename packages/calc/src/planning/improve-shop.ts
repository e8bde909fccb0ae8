import { keepsHeld, newWalk, walkLanes, type Walk } from './evaluate.js';
import type { Improver } from './improve-lanes.js';
import { randomFrom, type Random } from './random.js';
import { isEligible, type NumberedLanes, type Tables } from './tables.js';

const movesPerSlice = 100;
const historyLength = 60;
const blockMax = 4;

interface Change {
  cells: [number, number];
  lanes: [number[], number[]];
}

function anyLane(lanes: NumberedLanes, random: Random): number {
  const full = lanes.flatMap((lane, cell) => (lane.length > 0 ? [cell] : []));
  return full[random.below(full.length)]!;
}

/** Lifts a block of steps out of a lane and puts it in at another place, of the same or of another cell. */
function relocate(tables: Tables, lanes: NumberedLanes, random: Random): Change | null {
  const cell = anyLane(lanes, random);
  const to = random.below(3) > 0 ? cell : random.below(tables.cells);
  const source = lanes[cell]!.slice();
  const from = random.below(source.length);
  const block = source.splice(from, 1 + random.below(blockMax));
  if (to !== cell && !block.every((step) => isEligible(tables, to, step))) return null;
  const target = to === cell ? source : lanes[to]!.slice();
  target.splice(random.below(target.length + 1), 0, ...block);
  return { cells: [cell, to], lanes: [source, target] };
}

/** Lets two steps change places. */
function trade(tables: Tables, lanes: NumberedLanes, random: Random): Change | null {
  const cell = anyLane(lanes, random);
  const to = random.below(3) > 0 ? cell : anyLane(lanes, random);
  const source = lanes[cell]!.slice();
  const target = to === cell ? source : lanes[to]!.slice();
  const left = random.below(source.length);
  const right = random.below(target.length);
  const one = source[left]!;
  const two = target[right]!;
  if (one === two || !isEligible(tables, to, one) || !isEligible(tables, cell, two)) return null;
  source[left] = two;
  target[right] = one;
  return { cells: [cell, to], lanes: [source, target] };
}

interface Search {
  tables: Tables;
  random: Random;
  walk: Walk;
  lanes: NumberedLanes;
  cost: number;
  /** The cheapest cost since the last restart, and the moves tried since it was reached. */
  runCost: number;
  idle: number;
  history: Float64Array;
  turn: number;
  best: { lanes: NumberedLanes; cost: number };
}

/** Makes one random change and keeps it when its cost is under `limit`; false when it was not kept. */
function attempt(search: Search, limit: number): boolean {
  const { tables, random, lanes, walk } = search;
  const draw = random.below(3) > 0 ? relocate : trade;
  const change = draw(tables, lanes, random);
  if (!change) return false;
  const [cell, other] = change.cells;
  const old = [lanes[cell]!, lanes[other]!] as const;
  lanes[cell] = change.lanes[0];
  lanes[other] = change.lanes[1];
  const next = keepsHeld(tables, lanes) ? walkLanes(tables, lanes, walk) : Infinity;
  if (next < Infinity && next <= limit) {
    search.cost = next;
    return true;
  }
  lanes[other] = old[1];
  lanes[cell] = old[0];
  return false;
}

function noteBest(search: Search): void {
  search.idle += 1;
  if (search.cost < search.runCost) {
    search.runCost = search.cost;
    search.idle = 0;
  }
  if (search.cost >= search.best.cost) return;
  search.best = { cost: search.cost, lanes: search.lanes.map((lane) => lane.slice()) };
}

/** Goes on from the best order with a few changes that may cost anything. */
function restart(search: Search): void {
  const { tables, random, best, history } = search;
  search.lanes = best.lanes.map((lane) => lane.slice());
  search.cost = best.cost;
  const changes = 2 + random.below(4 + (tables.steps >> 3));
  for (let change = 0; change < changes; change += 1) attempt(search, Number.MAX_VALUE);
  search.runCost = search.cost;
  search.idle = 0;
  history.fill(search.cost);
}

/**
 * Late acceptance (Burke and Bykov 2017) for the shop's own problem, with calendars, steps that wait for others,
 * announced starts and held places: each change is walked exactly, and taken when it is no dearer than the order
 * was some changes ago or than it is now. Restarts from the best order when nothing gets cheaper any more.
 */
export function improveShop(tables: Tables, start: NumberedLanes, seed: number): Improver {
  const walk = newWalk(tables);
  const lanes = start.map((lane) => lane.slice());
  const cost = walkLanes(tables, lanes, walk);
  const search: Search = {
    tables,
    random: randomFrom(seed),
    walk,
    lanes,
    cost,
    runCost: cost,
    idle: 0,
    history: new Float64Array(historyLength).fill(cost),
    turn: 0,
    best: { cost, lanes: start },
  };
  const patience = 400 + 20 * tables.steps;
  return {
    cost: () => search.best.cost,
    lanes: () => search.best.lanes,
    improve: () => {
      for (let move = 0; move < movesPerSlice && search.best.cost > 0; move += 1) {
        if (search.idle > patience) restart(search);
        attempt(search, Math.max(search.cost, search.history[search.turn]!));
        search.history[search.turn] = search.cost;
        search.turn = (search.turn + 1) % historyLength;
        noteBest(search);
      }
    },
  };
}
