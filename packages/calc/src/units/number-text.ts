const decimal = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;
const spaceBetweenThousands = /(?<=\d)[\u0020\u00a0\u2009\u202f](?=\d{3}(\D|$))/g;

/**
 * A typed number, or null where the text is none. Comma and point are both the decimal mark; a space may group
 * thousands ("12 000"). Two marks in one number are refused, because "1,200.5" and "1.200,5" are read
 * differently in different countries. Nothing is corrected or rounded.
 */
export function readDecimal(typed: string): number | null {
  const compact = typed
    .trim()
    .replace(spaceBetweenThousands, '')
    .replace(/^\u2212/, '-');
  return decimal.test(compact) ? Number(compact.replace(',', '.')) : null;
}
