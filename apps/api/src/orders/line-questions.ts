import { weekdayWords } from './day-words.js';

/** From ten times the usual batch on, a slip of the finger is likelier than a large order. */
const unusualFactor = 10;

export function median(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const high = sorted[middle];
  if (high === undefined) return null;
  return sorted.length % 2 === 1 ? high : ((sorted[middle - 1] ?? high) + high) / 2;
}

interface Line {
  readonly quantity: number;
  readonly dueOn: string;
  readonly pastDueReason: string | null;
  readonly quantityConfirmed: boolean;
  readonly partConfirmed: boolean;
}

export interface LineQuestion {
  readonly code: 'NEEDS_REASON' | 'NEEDS_CONFIRMATION';
  readonly field: 'pastDueReason' | 'quantity' | 'partId';
  readonly given: string | null;
  readonly text: string;
  readonly allowed: string;
}

/** What is asked before a line is taken; empty when nothing is open. Days are days of the shop. */
export function questionsOf(
  line: Line,
  facts: {
    readonly today: string;
    readonly usualQuantity: number | null;
    readonly part: { readonly number: string; readonly keptFor: string | null };
  },
): LineQuestion[] {
  return [
    ...otherCustomer(line, facts.part),
    ...pastDue(line, facts.today),
    ...unusualQuantity(line, facts.usualQuantity),
  ];
}

/** Two customers may use one name for two parts, or two names for one. */
function otherCustomer(
  { partConfirmed }: Line,
  { number, keptFor }: { number: string; keptFor: string | null },
): LineQuestion[] {
  if (keptFor === null || partConfirmed) return [];
  return [
    {
      code: 'NEEDS_CONFIRMATION',
      field: 'partId',
      given: number,
      text: `${number} is kept for ${keptFor}, and this customer has never ordered it. Confirm that it is the part that is meant, or choose another.`,
      allowed: 'a part that this customer has ordered before, or any part once confirmed',
    },
  ];
}

function pastDue(line: Line, today: string): LineQuestion[] {
  if (line.dueOn >= today || line.pastDueReason !== null) return [];
  return [
    {
      code: 'NEEDS_REASON',
      field: 'pastDueReason',
      given: null,
      text: `The due date ${weekdayWords(line.dueOn)} has passed. Correct it, or say why the order is still taken.`,
      allowed: `a reason, or a due date from ${weekdayWords(today)} on`,
    },
  ];
}

function unusualQuantity(line: Line, usual: number | null): LineQuestion[] {
  if (usual === null || line.quantityConfirmed || line.quantity < unusualFactor * usual) return [];
  const times = Math.round((line.quantity / usual) * 10) / 10;
  return [
    {
      code: 'NEEDS_CONFIRMATION',
      field: 'quantity',
      given: String(line.quantity),
      text: `${line.quantity} parts: ${times} times the usual ${usual}? Correct the quantity, or confirm it.`,
      allowed: `less than ${unusualFactor} times the usual ${usual}, or any quantity once confirmed`,
    },
  ];
}
