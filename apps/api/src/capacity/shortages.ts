import { stockThroughQueue } from '@tackboard/calc';
import type { Shortage } from '@tackboard/contract';
import { weekdayWords } from '../orders/day-words.js';
import { numberWords } from '../queue/fit-words.js';

/** What a step draws, in the unit of the item. */
export interface Draw {
  readonly itemId: string;
  readonly amount: number;
  readonly cellId: string;
  readonly cellCode: string;
  readonly jobNumber: number;
  /** The day on which the step begins; null where the calendar gives none. */
  readonly day: string | null;
}

interface StockedItem {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly stock: number;
}

interface Loaded {
  readonly itemId: string;
  readonly cellId: string;
  readonly leftAmount: number;
}

/** Every item that the queue draws on: what is needed, what is there, and where and when it runs short. */
export function shortagesOf(
  draws: readonly Draw[],
  { items, loads }: { items: readonly StockedItem[]; loads: readonly Loaded[] },
): Shortage[] {
  return items.flatMap((item): Shortage[] => {
    const own = draws.filter(({ itemId }) => itemId === item.id);
    if (own.length === 0) return [];
    const onCell: Record<string, number> = {};
    for (const { itemId, cellId, leftAmount } of loads) {
      if (itemId === item.id) onCell[cellId] = (onCell[cellId] ?? 0) + Math.max(0, leftAmount);
    }
    const walk = stockThroughQueue({ inStore: Math.max(0, item.stock), onCell, draws: own });
    if (!walk.ok) throw new Error(`${walk.refusal.argument} of ${item.name} is no amount.`);
    const loadedAmount = Object.values(onCell).reduce((sum, amount) => sum + amount, 0);
    return [
      {
        ...{ itemId: item.id, itemName: item.name, unit: item.unit },
        ...{ neededAmount: walk.needed, loadedAmount, storedAmount: Math.max(0, item.stock) },
        shortAmount: walk.short.reduce((sum, amount) => sum + amount, 0),
        words: own.flatMap((draw, at) => wordsOf(draw, { item, short: walk.short[at] ?? 0 })),
      },
    ];
  });
}

function wordsOf(
  { day, cellCode, jobNumber }: Draw,
  { item, short }: { item: StockedItem; short: number },
): string[] {
  if (short <= 0) return [];
  const when =
    day === null ? 'on a day that the calendar does not give' : `on ${weekdayWords(day)}`;
  const amount = `${numberWords(short)} ${item.unit} of ${item.name}`;
  return [`Short of ${amount} ${when} at ${cellCode}, job ${jobNumber}.`];
}
