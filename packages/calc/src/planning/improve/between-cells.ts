import { laneCost, tailCost, type Lane } from '../lanes.js';
import { isEligible, type Tables } from '../tables.js';

/** The best change between two lanes found so far; `change` is what it adds to the cost, `other` is -1 while none. */
export interface Transfer {
  change: number;
  lane: number;
  from: number;
  other: number;
  place: number;
  /** Steps that go over: 1 or more; 0 when the two steps change places. */
  count: number;
}

function rigidShift(shift: number, rigid: number): number {
  return shift < 0 ? shift : shift * rigid;
}

/** Lower bound of the rest of a lane from place `at`, when the step before it is `before` and ends at `time`. */
function tailBound(lane: Lane, tables: Tables, at: number, before: number, time: number): number {
  if (at > lane.length) return 0;
  const next = lane.step[at]!;
  const end =
    Math.max(time, tables.release[next]!) + tables.span[lane.cell]![before * tables.rows + next]!;
  const slope = lane.lateWeight[lane.length]! - lane.lateWeight[at - 1]!;
  const held = lane.cost[lane.length]! - lane.cost[at - 1]!;
  return Math.max(held + rigidShift(end - lane.finish[at]!, tables.rigid) * slope, 0);
}

/** Looks for the best place in other lanes for the `count` steps from place `from` on. */
export function bestTransfer(
  lanes: readonly Lane[],
  tables: Tables,
  moved: { lane: number; from: number; count: number },
  found: Transfer,
): void {
  const { from, count } = moved;
  const source = lanes[moved.lane]!;
  const { step } = source;
  const { weight, due, release, rows } = tables;
  const gain =
    source.cost[from - 1]! +
    tailCost(source, tables, from + count, step[from - 1]!, source.finish[from - 1]!, Infinity) -
    laneCost(source);
  const last = step[from + count - 1]!;
  for (let other = 0; other < lanes.length; other += 1) {
    if (other === moved.lane) continue;
    let eligible = true;
    for (let at = 0; at < count; at += 1) {
      if (!isEligible(tables, other, step[from + at]!)) eligible = false;
    }
    if (!eligible) continue;
    const target = lanes[other]!;
    const span = tables.span[other]!;
    const old = laneCost(target);
    for (let place = 1; place <= target.length + 1; place += 1) {
      let now = target.finish[place - 1]!;
      let before = target.step[place - 1]!;
      let sum = target.cost[place - 1]! + gain - old;
      for (let at = 0; at < count; at += 1) {
        const id = step[from + at]!;
        now = Math.max(now, release[id]!) + span[before * rows + id]!;
        if (now > due[id]!) sum += (now - due[id]!) * weight[id]!;
        before = id;
      }
      if (sum >= found.change) continue;
      if (sum + tailBound(target, tables, place, last, now) >= found.change) continue;
      sum += tailCost(target, tables, place, last, now, found.change - sum);
      if (sum < found.change) {
        found.change = sum;
        found.lane = moved.lane;
        found.from = from;
        found.other = other;
        found.place = place;
        found.count = count;
      }
    }
  }
}

/** Cost of a lane when the step at `place` is replaced by `id`; a value not under `limit` once that is certain. */
function replacedCost(
  lane: Lane,
  tables: Tables,
  place: number,
  id: number,
  limit: number,
): number {
  const before = lane.step[place - 1]!;
  const now =
    Math.max(lane.finish[place - 1]!, tables.release[id]!) +
    tables.span[lane.cell]![before * tables.rows + id]!;
  const late = Math.max(now - tables.due[id]!, 0) * tables.weight[id]!;
  const sum = lane.cost[place - 1]! + late;
  const bound = sum + tailBound(lane, tables, place + 1, id, now);
  if (bound >= limit) return bound;
  return sum + tailCost(lane, tables, place + 1, id, now, limit - sum);
}

/** Looks for the best step of a later lane to change places with the one at `from`. */
export function bestTrade(
  lanes: readonly Lane[],
  tables: Tables,
  moved: { lane: number; from: number },
  found: Transfer,
): void {
  const source = lanes[moved.lane]!;
  const id = source.step[moved.from]!;
  for (let other = 0; other < lanes.length; other += 1) {
    if (other === moved.lane || !isEligible(tables, other, id)) continue;
    const target = lanes[other]!;
    const old = laneCost(source) + laneCost(target);
    for (let place = 1; place <= target.length; place += 1) {
      const partner = target.step[place]!;
      if (!isEligible(tables, moved.lane, partner)) continue;
      const limit = found.change + old;
      const first = replacedCost(source, tables, moved.from, partner, limit);
      if (first >= limit) continue;
      const sum = first + replacedCost(target, tables, place, id, limit - first);
      if (sum < limit) {
        found.change = sum - old;
        found.lane = moved.lane;
        found.from = moved.from;
        found.other = other;
        found.place = place;
        found.count = 0;
      }
    }
  }
}

/** Makes the change; the sums are left for the caller to refresh from the two places. */
export function applyTransfer(lanes: readonly Lane[], move: Transfer): void {
  const source = lanes[move.lane]!;
  const target = lanes[move.other]!;
  if (move.count === 0) {
    const step = source.step[move.from]!;
    source.step[move.from] = target.step[move.place]!;
    target.step[move.place] = step;
    return;
  }
  target.step.copyWithin(move.place + move.count, move.place, target.length + 1);
  for (let at = 0; at < move.count; at += 1) {
    target.step[move.place + at] = source.step[move.from + at]!;
  }
  source.step.copyWithin(move.from, move.from + move.count, source.length + 1);
  source.length -= move.count;
  target.length += move.count;
}
