import { tailCost, type Lane } from '../lanes.js';
import type { Tables } from '../tables.js';

/** The best exchange of two steps found so far; `left` is 0 while there is none. */
export interface Swap {
  cost: number;
  left: number;
  right: number;
}

/** Looks for the best exchange of the step at `left` with one further right, neighbours left to the block moves. */
export function bestSwap(lane: Lane, tables: Tables, left: number, found: Swap): void {
  const { step, finish, cost, lateWeight, length } = lane;
  const { weight, due, release, rows, rigid } = tables;
  const span = tables.span[lane.cell]!;
  const moved = step[left]!;
  const before = step[left - 1]!;
  const startTime = finish[left - 1]!;
  const startCost = cost[left - 1]!;
  const total = cost[length]!;
  const inner = step[left + 1]!;
  const innerFree = release[inner]!;
  const movedFree = release[moved]!;
  let best = found.cost;
  for (let right = left + 2; right <= length; right += 1) {
    const other = step[right]!;
    const otherFree = release[other]!;
    const time = (startTime > otherFree ? startTime : otherFree) + span[before * rows + other]!;
    let sum = startCost;
    if (time > due[other]!) sum += (time - due[other]!) * weight[other]!;
    const innerEnd = (time > innerFree ? time : innerFree) + span[other * rows + inner]!;
    const shift = innerEnd - finish[left + 1]!;
    const counted = shift < 0 ? shift : shift * rigid;
    const between =
      cost[right - 1]! - cost[left]! + counted * (lateWeight[right - 1]! - lateWeight[left]!);
    let bound = between > 0 ? sum + between : sum;
    if (bound >= best) continue;
    const edge = step[right - 1]!;
    const edgeEnd = finish[right - 1]! + counted;
    const movedEnd = (edgeEnd > movedFree ? edgeEnd : movedFree) + span[edge * rows + moved]!;
    if (movedEnd > due[moved]!) bound += (movedEnd - due[moved]!) * weight[moved]!;
    if (bound >= best) continue;
    if (right < length) {
      const next = step[right + 1]!;
      const nextFree = release[next]!;
      const slip =
        (movedEnd > nextFree ? movedEnd : nextFree) +
        span[moved * rows + next]! -
        finish[right + 1]!;
      const tail =
        total -
        cost[right]! +
        (slip < 0 ? slip : slip * rigid) * (lateWeight[length]! - lateWeight[right]!);
      if (tail > 0) bound += tail;
      if (bound >= best) continue;
    }
    let now = time;
    let previous = other;
    for (let place = left + 1; place <= right; place += 1) {
      const id = place === right ? moved : step[place]!;
      const free = release[id]!;
      now = (now > free ? now : free) + span[previous * rows + id]!;
      const late = now - due[id]!;
      if (late > 0) sum += late * weight[id]!;
      previous = id;
    }
    if (sum >= best) continue;
    sum += tailCost(lane, tables, right + 1, moved, now, best - sum);
    if (sum < best) {
      best = sum;
      found.cost = sum;
      found.left = left;
      found.right = right;
    }
  }
}

/** Exchanges the two steps; the sums are left for the caller to refresh from `left`. */
export function applySwap(lane: Lane, left: number, right: number): void {
  const step = lane.step[left]!;
  lane.step[left] = lane.step[right]!;
  lane.step[right] = step;
}
