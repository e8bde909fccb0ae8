import type { FitResult } from '../answer.js';
import type { Band } from './rule.js';
import type { Suggested } from './suggest.js';

/** Room for the last binary digit of a computed limit, so that a value on it is inside. */
const tolerance = 1e-9;

export function isInBand(value: number, { min, max, minOpen }: Band): boolean {
  const room = tolerance * Math.max(1, Math.abs(value));
  const above = min === null || (minOpen ? value > min + room : value >= min - room);
  return above && (max === null || value <= max + room);
}

const plain = (text: string) => text.trim().replace(/\s+/g, ' ').toUpperCase();

export function isListed(value: string, values: readonly string[]): boolean {
  return values.map(plain).includes(plain(value));
}

/**
 * A value of a job against a suggested range. An unsure row, a missing value and one that only the unsure part holds
 * are `cannotSay`; only a sure range gives inside or outside.
 */
export function judgeSuggested(
  suggested: Suggested | null,
  value: number | string | null,
): FitResult {
  if (suggested === null || suggested.answer === 'cannotSay') return 'cannotSay';
  if (
    value === null ||
    (typeof value === 'string' ? plain(value) === '' : !Number.isFinite(value))
  ) {
    return 'cannotSay';
  }
  if (suggested.answer === 'any') return 'inside';
  if (suggested.answer === 'range') {
    if (typeof value !== 'number') return 'cannotSay';
    if (isInBand(value, suggested.band)) return 'inside';
    return suggested.unsure !== null && isInBand(value, suggested.unsure) ? 'cannotSay' : 'outside';
  }
  if (typeof value !== 'string') return 'cannotSay';
  if (isListed(value, suggested.values)) return 'inside';
  return isListed(value, suggested.unsure) ? 'cannotSay' : 'outside';
}
