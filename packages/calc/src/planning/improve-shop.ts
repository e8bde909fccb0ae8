import { keepsHeld, newWalk, walkLanes } from './evaluate.js';
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

/**
 * Late acceptance (Burke and Bykov 2017) for the shop's own problem, with calendars, steps that wait for others,
 * announced starts and held places: each change is walked exactly, and taken when it is no dearer than the order
 * was some changes ago or than it is now.
 */
export function improveShop(tables: Tables, start: NumberedLanes, seed: number): Improver {
  const random = randomFrom(seed);
  const walk = newWalk(tables);
  const lanes = start.map((lane) => lane.slice());
  let cost = walkLanes(tables, lanes, walk);
  let best = lanes.map((lane) => lane.slice());
  let bestCost = cost;
  const history = new Float64Array(historyLength).fill(cost);
  let turn = 0;
  const restore = ({ cells }: Change, old: [number[], number[]]): void => {
    lanes[cells[1]] = old[1];
    lanes[cells[0]] = old[0];
  };
  const attempt = (): void => {
    const change =
      random.below(3) > 0 ? relocate(tables, lanes, random) : trade(tables, lanes, random);
    if (!change) return;
    const old: [number[], number[]] = [lanes[change.cells[0]]!, lanes[change.cells[1]]!];
    lanes[change.cells[0]] = change.lanes[0];
    lanes[change.cells[1]] = change.lanes[1];
    const next = keepsHeld(tables, lanes) ? walkLanes(tables, lanes, walk) : Infinity;
    if (next === Infinity || (next > cost && next > history[turn]!)) restore(change, old);
    else cost = next;
    history[turn] = cost;
    turn = (turn + 1) % historyLength;
    if (cost < bestCost) {
      bestCost = cost;
      best = lanes.map((lane) => lane.slice());
    }
  };
  return {
    cost: () => bestCost,
    lanes: () => best,
    improve: () => {
      for (let move = 0; move < movesPerSlice && bestCost > 0; move += 1) attempt();
    },
  };
}
