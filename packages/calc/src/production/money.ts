import { firstRefusal } from '../quantities.js';
import type { ArgumentRefusal, Bound } from '../result.js';

export const moneyBounds = {
  /** Per hour of labour or of a cell. */
  ratePerH: { min: 0, max: 100_000, unit: 'per h' },
  price: { min: 0, max: 1_000_000, unit: 'per unit' },
  amount: { min: 0, max: 1e9, unit: '' },
} as const satisfies Record<string, Bound>;

/** Refuses a currency that is no word of one to five letters or signs; it only labels the figures. */
function currencyRefusal(currency: unknown): ArgumentRefusal | null {
  const isLabel = typeof currency === 'string' && /^[\p{L}\p{Sc}]{1,5}$/u.test(currency);
  if (isLabel) return null;
  return { argument: 'currency', given: currency, allowed: 'a code or sign such as EUR' };
}

/** The first amount that is none, or the currency that is none. */
export function moneyRefusal(
  currency: unknown,
  rows: Parameters<typeof firstRefusal>[0],
): ArgumentRefusal | null {
  return firstRefusal(rows) ?? currencyRefusal(currency);
}
