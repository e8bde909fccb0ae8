import { finishOf, openFrom } from './hours.js';
import type { NumberedLanes, Tables } from './tables.js';

/** Up to this many steps the best order is found by weighing every order that could be best. */
export const exactStepsMax = 10;

/** One way to run a set of steps at a cell, ending with `step`. */
interface Label {
  time: number;
  cost: number;
  step: number;
  from: Label | null;
}

function extend(
  tables: Tables,
  cell: number,
  label: Label | null,
  step: number,
): { time: number; cost: number } {
  const minutes = tables.span[cell]![(label?.step ?? 0) * tables.rows + step]!;
  const earliest = Math.max(label?.time ?? tables.freeFrom[cell]!, tables.release[step]!);
  const hours = tables.hours[cell];
  const start = hours ? openFrom(hours, earliest) : earliest;
  const time = hours ? finishOf(hours, start, minutes) : start + minutes;
  const late = Math.max(time - tables.due[step]!, 0);
  const announced = tables.announcedCell[step]!;
  const moved = announced >= 0 && (announced !== cell || start > tables.announcedStart[step]!);
  const cost = late * tables.weight[step]! + (moved ? tables.announcedCost[step]! : 0);
  return { time, cost: (label?.cost ?? 0) + cost };
}

/** Keeps only labels that no other one equals or beats in both time and cost: a single one is not enough. */
function keep(labels: Label[], label: Label): void {
  for (let at = labels.length - 1; at >= 0; at -= 1) {
    const other = labels[at]!;
    if (other.time <= label.time && other.cost <= label.cost) return;
    if (label.time <= other.time && label.cost <= other.cost) labels.splice(at, 1);
  }
  labels.push(label);
}

function mayStand(tables: Tables, cell: number, step: number, place: number): boolean {
  if (tables.span[cell]![step] === Infinity) return false;
  for (let at = 0; at < tables.cells; at += 1) {
    for (const [heldPlace, heldStep] of tables.held[at]!) {
      if (heldStep === step) return at === cell && heldPlace === place;
      if (at === cell && heldPlace === place) return false;
    }
  }
  return true;
}

/** The cheapest label of every set of steps at one cell, null where the set cannot run there. */
function bestOfSets(tables: Tables, cell: number): (Label | null)[] {
  const sets = 1 << tables.steps;
  const labels: Label[][] = Array.from({ length: sets * tables.rows }, () => []);
  const best: (Label | null)[] = Array.from({ length: sets }, () => null);
  for (let set = 0; set < sets; set += 1) {
    let place = 0;
    for (let bits = set; bits > 0; bits &= bits - 1) place += 1;
    const ends =
      set === 0 ? [null] : labels.slice(set * tables.rows, (set + 1) * tables.rows).flat();
    for (const end of ends) {
      if (end && (best[set] === null || end.cost < best[set]!.cost)) best[set] = end;
      for (let step = 1; step <= tables.steps; step += 1) {
        const bit = 1 << (step - 1);
        if (set & bit || !mayStand(tables, cell, step, place)) continue;
        keep(labels[(set | bit) * tables.rows + step]!, {
          ...extend(tables, cell, end, step),
          step,
          from: end,
        });
      }
    }
  }
  return best;
}

function laneOf(label: Label | null): number[] {
  const lane: number[] = [];
  for (let at = label; at; at = at.from) lane.unshift(at.step);
  return lane;
}

/**
 * The best order of a few steps, proven: all labels (time, cost) that no other one beats are kept per set of steps
 * and last step, and the sets are dealt to the cells in every way. Not for steps that wait for others.
 */
export function exactOrder(tables: Tables): NumberedLanes {
  const sets = 1 << tables.steps;
  let cost = new Float64Array(sets).fill(Infinity);
  cost[0] = 0;
  const given: Int32Array[] = [];
  const labels: (Label | null)[][] = [];
  for (let cell = 0; cell < tables.cells; cell += 1) {
    const own = bestOfSets(tables, cell);
    const next = Float64Array.from(cost);
    const share = new Int32Array(sets);
    for (let set = 1; set < sets; set += 1) {
      for (let part = set; part > 0; part = (part - 1) & set) {
        const sum = (own[part]?.cost ?? Infinity) + cost[set ^ part]!;
        if (sum < next[set]!) {
          next[set] = sum;
          share[set] = part;
        }
      }
    }
    cost = next;
    given.push(share);
    labels.push(own);
  }
  const lanes: NumberedLanes = Array.from({ length: tables.cells }, () => []);
  let left = sets - 1;
  for (let cell = tables.cells - 1; cell >= 0; cell -= 1) {
    const part = given[cell]![left]!;
    lanes[cell] = part === 0 ? [] : laneOf(labels[cell]![part]!);
    left ^= part;
  }
  return lanes;
}
