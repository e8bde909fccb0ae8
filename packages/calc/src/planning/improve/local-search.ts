import { laneCost, markChanged, refresh, type Lane } from '../lanes.js';
import type { Tables } from '../tables.js';
import { applyTransfer, bestTrade, bestTransfer, type Transfer } from './between-cells.js';
import { applyBlockMove, bestBlockMove, type BlockMove } from './block-move.js';
import { applySwap, bestSwap, type Swap } from './swap.js';

/** Lanes under improvement, with the steps that are to be looked at again. */
export interface Field {
  tables: Tables;
  lanes: readonly Lane[];
  changed: Uint8Array;
  /** Less than this is no improvement: it keeps rounding from looking like one. */
  least: number;
  block: BlockMove;
  swap: Swap;
  transfer: Transfer;
}

/** Blocks longer than this are rarely worth their time. */
const blockMax = 12;
const transferMax = 3;

export function newField(tables: Tables, lanes: readonly Lane[]): Field {
  let weights = 0;
  for (const weight of tables.weight) weights += weight;
  return {
    tables,
    lanes,
    changed: new Uint8Array(tables.steps + 1),
    least: 1e-9 * Math.max(weights, 1),
    block: { cost: 0, from: 0, middle: 0, to: 0 },
    swap: { cost: 0, left: 0, right: 0 },
    transfer: { change: 0, lane: 0, from: 0, other: -1, place: 0, count: 0 },
  };
}

function improveInLane(field: Field, lane: Lane, place: number): boolean {
  const { tables, block, swap } = field;
  if (place >= lane.length) return false;
  block.cost = laneCost(lane) - field.least;
  block.to = 0;
  bestBlockMove(lane, tables, place, blockMax, block);
  swap.cost = block.cost;
  swap.left = 0;
  if (place < lane.length - 1) bestSwap(lane, tables, place, swap);
  if (swap.left > 0) {
    applySwap(lane, swap.left, swap.right);
    refresh(lane, tables, swap.left);
    markChanged(lane, field.changed, swap.left, swap.right);
    return true;
  }
  if (block.to === 0) return false;
  applyBlockMove(lane, block.from, block.middle, block.to);
  refresh(lane, tables, block.from);
  markChanged(lane, field.changed, block.from, block.to);
  return true;
}

function improveBetween(field: Field, lane: number, from: number): boolean {
  const { tables, lanes, transfer } = field;
  transfer.change = -field.least;
  transfer.other = -1;
  const longest = Math.min(transferMax, lanes[lane]!.length - from + 1);
  for (let count = 1; count <= longest; count += 1) {
    bestTransfer(lanes, tables, { lane, from, count }, transfer);
  }
  bestTrade(lanes, tables, { lane, from }, transfer);
  if (transfer.other < 0) return false;
  const source = lanes[lane]!;
  const target = lanes[transfer.other]!;
  applyTransfer(lanes, transfer);
  refresh(source, tables, from);
  refresh(target, tables, transfer.place);
  markChanged(source, field.changed, from, from);
  markChanged(target, field.changed, transfer.place, transfer.place + transfer.count);
  return true;
}

/**
 * Improves the lanes until no change near a marked step makes them cheaper: the best exchange of blocks or of two
 * steps in the lane first, then the best change to another lane. Begins at lane `first` and goes round.
 */
export function settle(field: Field, first: number): void {
  const { lanes, changed } = field;
  let quiet = 0;
  let at = first;
  while (quiet < lanes.length) {
    const lane = lanes[at]!;
    quiet += 1;
    for (let place = 1; place <= lane.length; place += 1) {
      const step = lane.step[place]!;
      // A step that goes to another cell from the end of the lane leaves its number behind there.
      while (changed[step] === 1 && place <= lane.length && lane.step[place] === step) {
        if (improveInLane(field, lane, place)) quiet = 0;
        else if (lanes.length > 1 && improveBetween(field, at, place)) quiet = 0;
        else changed[step] = 0;
      }
    }
    at = at + 1 === lanes.length ? 0 : at + 1;
  }
}
