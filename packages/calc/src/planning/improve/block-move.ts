import { tailCost, type Lane } from '../lanes.js';
import type { Tables } from '../tables.js';

/** The best exchange found so far: [from..middle] and [middle+1..to] change places. */
export interface BlockMove {
  cost: number;
  from: number;
  middle: number;
  to: number;
}

/** Exact cost of the lane when the block [from..middle] runs after `before`, which ends at `time` and costs `sum`. */
function exchangedCost(
  lane: Lane,
  tables: Tables,
  at: {
    from: number;
    middle: number;
    to: number;
    before: number;
    time: number;
    sum: number;
    limit: number;
  },
): number {
  const { weight, due, release, rows } = tables;
  const span = tables.span[lane.cell]!;
  let { before, time, sum } = at;
  for (let place = at.from; place <= at.middle; place += 1) {
    const id = lane.step[place]!;
    const free = release[id]!;
    time = (time > free ? time : free) + span[before * rows + id]!;
    const late = time - due[id]!;
    if (late > 0) sum += late * weight[id]!;
    before = id;
  }
  return sum >= at.limit
    ? sum
    : sum + tailCost(lane, tables, at.to + 1, before, time, at.limit - sum);
}

/**
 * Looks for the best exchange of two neighbouring blocks of which the first begins at `from`, one of them no longer
 * than `blockMax`. Insertion of one step is the case of a block of one. The first block to run is summed on the way;
 * for the other and for the rest of the lane a lower bound decides first: late steps shifted by t cost at least t
 * times their weight more (or, shifted to earlier, at most that much less), because tardiness is convex.
 */
export function bestBlockMove(
  lane: Lane,
  tables: Tables,
  from: number,
  blockMax: number,
  found: BlockMove,
): void {
  const { step, finish, cost, lateWeight, length } = lane;
  const { weight, due, release, rows, rigid } = tables;
  const span = tables.span[lane.cell]!;
  const head = step[from]!;
  const headDue = due[head]!;
  const headRelease = release[head]!;
  const headWeight = weight[head]!;
  const startCost = cost[from - 1]!;
  const startTime = finish[from - 1]!;
  const startStep = step[from - 1]!;
  const headFinish = finish[from]!;
  const total = cost[length]!;
  const totalSlope = lateWeight[length]!;
  let best = found.cost;
  for (let middle = from; middle < length; middle += 1) {
    const last = step[middle]!;
    const heldCost = cost[middle]! - startCost;
    const heldSlope = lateWeight[middle]! - lateWeight[from - 1]!;
    const heldFinish = finish[middle]!;
    const end = middle - from < blockMax ? length : Math.min(length, middle + blockMax);
    let time = startTime;
    let before = startStep;
    let sum = startCost;
    for (let to = middle + 1; to <= end; to += 1) {
      const id = step[to]!;
      const free = release[id]!;
      time = (time > free ? time : free) + span[before * rows + id]!;
      const late = time - due[id]!;
      if (late > 0) sum += late * weight[id]!;
      if (sum >= best) break;
      before = id;
      const headEnd = (time > headRelease ? time : headRelease) + span[id * rows + head]!;
      let bound = sum;
      let heldEnd = headEnd;
      if (middle === from) {
        if (headEnd > headDue) bound += (headEnd - headDue) * headWeight;
      } else {
        const shift = headEnd - headFinish;
        const counted = shift < 0 ? shift : shift * rigid;
        const held = heldCost + counted * heldSlope;
        if (held > 0) bound += held;
        heldEnd = heldFinish + counted;
      }
      if (bound >= best) continue;
      if (to < length) {
        const next = step[to + 1]!;
        const nextFree = release[next]!;
        const shift =
          (heldEnd > nextFree ? heldEnd : nextFree) + span[last * rows + next]! - finish[to + 1]!;
        const tail =
          total - cost[to]! + (shift < 0 ? shift : shift * rigid) * (totalSlope - lateWeight[to]!);
        if (tail > 0) bound += tail;
        if (bound >= best) continue;
      }
      const exact = exchangedCost(lane, tables, {
        from,
        middle,
        to,
        before: id,
        time,
        sum,
        limit: best,
      });
      if (exact < best) {
        best = exact;
        found.cost = exact;
        found.from = from;
        found.middle = middle;
        found.to = to;
      }
    }
  }
}

const held = { steps: new Int32Array(0) };

/** Exchanges the two blocks in the lane; the sums are left for the caller to refresh from `from`. */
export function applyBlockMove(lane: Lane, from: number, middle: number, to: number): void {
  const { step } = lane;
  const first = middle - from + 1;
  if (held.steps.length < first) held.steps = new Int32Array(first * 2);
  for (let at = 0; at < first; at += 1) held.steps[at] = step[from + at]!;
  step.copyWithin(from, middle + 1, to + 1);
  const start = from + to - middle;
  for (let at = 0; at < first; at += 1) step[start + at] = held.steps[at]!;
}
