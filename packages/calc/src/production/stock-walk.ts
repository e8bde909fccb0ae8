import { firstRefusal, type Bound } from '../quantities.js';
import { refused, type Refused } from '../result.js';
import type { SourceId } from '../sources/index.js';

interface StockDraw {
  readonly cellId: string;
  readonly amount: number;
}

interface StockInputs {
  /** What is in store, in the unit of the item. */
  readonly inStore: number;
  /** What hangs at each cell, by its id: only that cell draws on it. */
  readonly onCell: Readonly<Record<string, number>>;
  /** In the order in which they begin. */
  readonly draws: readonly StockDraw[];
}

type StockWalk =
  | {
      readonly ok: true;
      /** What each draw is short of; 0 where it is covered. */
      readonly short: readonly number[];
      readonly needed: number;
      readonly sources: readonly SourceId[];
    }
  | Refused;

/** Kilograms of wire or litres of gas in a bulk tank: only what is no amount is refused. */
const anyAmount: Bound = { min: 0, max: 1e12, unit: '' };

/**
 * How far what is loaded and what is in store reach through the draws on one item: each takes what hangs at its own
 * cell first, then from the store. All amounts in the item's own unit, as weighed or drawn.
 */
export function stockThroughQueue({ inStore, onCell, draws }: StockInputs): StockWalk {
  const refusal = firstRefusal([
    ['inStore', inStore, anyAmount],
    ...Object.entries(onCell).map(
      ([cellId, amount]) => [`onCell.${cellId}`, amount, anyAmount] as const,
    ),
    ...draws.map(({ amount }, at) => [`draws.${at}.amount`, amount, anyAmount] as const),
  ]);
  if (refusal) return refused(refusal);
  const hanging = new Map(Object.entries(onCell));
  let store = inStore;
  const short = draws.map(({ cellId, amount }) => {
    const here = Math.min(amount, hanging.get(cellId) ?? 0);
    hanging.set(cellId, (hanging.get(cellId) ?? 0) - here);
    const fetched = Math.min(amount - here, store);
    store -= fetched;
    return asWeighed(amount - here - fetched);
  });
  const needed = draws.reduce((sum, { amount }) => sum + amount, 0);
  return { ok: true, short, needed, sources: ['stockBalance'] };
}

/** Beyond a millionth there is only the noise of sums in floating point. */
function asWeighed(amount: number): number {
  return Math.round(amount * 1e6) / 1e6;
}
