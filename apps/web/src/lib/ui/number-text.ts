export type NumberReading =
  | { readonly kind: 'empty' }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'refused' };

const plainNumber = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;

/**
 * Reads a typed number. Comma and point are both the decimal mark; a thin or plain space may group
 * thousands ("12 000"). Two marks in one number are refused, because "1,200.5" and "1.200,5" are
 * read differently in different countries. Nothing is corrected or rounded.
 */
export function readNumber(typed: string): NumberReading {
  const compact = typed.trim().replace(/(?<=\d)[\u0020\u00a0\u2009\u202f](?=\d{3}(\D|$))/g, '');
  if (compact === '') return { kind: 'empty' };
  const withAsciiMinus = compact.replace(/^\u2212/, '-');
  if (!plainNumber.test(withAsciiMinus)) return { kind: 'refused' };
  return { kind: 'number', value: Number(withAsciiMinus.replace(',', '.')) };
}
