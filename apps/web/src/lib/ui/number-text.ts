import { readDecimal } from '@tackboard/calc';

export type NumberReading =
  | { readonly kind: 'empty' }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'refused' };

/**
 * Reads a typed number. Comma and point are both the decimal mark; a thin or plain space may group
 * thousands ("12 000"). Two marks in one number are refused, because "1,200.5" and "1.200,5" are
 * read differently in different countries. Nothing is corrected or rounded.
 */
export function readNumber(typed: string): NumberReading {
  if (typed.trim() === '') return { kind: 'empty' };
  const value = readDecimal(typed);
  return value === null ? { kind: 'refused' } : { kind: 'number', value };
}
