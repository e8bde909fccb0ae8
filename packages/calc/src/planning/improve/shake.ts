import { markChanged, refresh, type Lane } from '../lanes.js';
import type { Random } from '../random.js';
import { isEligible } from '../tables.js';
import { applyTransfer } from './between-cells.js';
import { applyBlockMove } from './block-move.js';
import type { Field } from './local-search.js';

const segmentMax = 8;

/** Exchanges two neighbouring blocks of random length somewhere in the lane. */
function shakeBlocks(field: Field, lane: Lane, random: Random): void {
  const longest = Math.min(segmentMax, lane.length >> 1);
  const first = 1 + random.below(longest);
  const second = 1 + random.below(longest);
  const from = 1 + random.below(lane.length - first - second + 1);
  const to = from + first + second - 1;
  applyBlockMove(lane, from, from + first - 1, to);
  refresh(lane, field.tables, from);
  markChanged(lane, field.changed, from, to);
}

/** Sends a random step to a random place of another cell that can do it; false when the draw does not fit. */
function shakeBetween(field: Field, at: number, random: Random): boolean {
  const { lanes, tables, transfer } = field;
  const other = random.below(lanes.length);
  const source = lanes[at]!;
  const target = lanes[other]!;
  const from = 1 + random.below(source.length);
  if (other === at || !isEligible(tables, other, source.step[from]!)) return false;
  transfer.lane = at;
  transfer.from = from;
  transfer.other = other;
  transfer.place = 1 + random.below(target.length + 1);
  transfer.count = 1;
  applyTransfer(lanes, transfer);
  refresh(source, tables, from);
  refresh(target, tables, transfer.place);
  markChanged(source, field.changed, from, from);
  markChanged(target, field.changed, transfer.place, transfer.place);
  return true;
}

/** Makes one to `most` random changes, small enough that most of the order survives. */
export function shake(field: Field, random: Random, most: number): void {
  const { lanes } = field;
  const times = 1 + random.below(most);
  for (let time = 0; time < times; time += 1) {
    const at = random.below(lanes.length);
    const lane = lanes[at]!;
    if (lane.length === 0) continue;
    if (lanes.length > 1 && random.below(2) === 0 && shakeBetween(field, at, random)) continue;
    if (lane.length > 1) shakeBlocks(field, lane, random);
  }
}
