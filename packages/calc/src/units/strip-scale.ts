interface StripInput {
  readonly min: number | null;
  readonly max: number | null;
  readonly set: number | null;
  readonly readings: readonly number[];
}

interface StripScale {
  readonly from: number;
  readonly to: number;
  /** Position of a value on the line, 0 to 1. */
  readonly at: (value: number) => number;
}

/**
 * The stretch of the line that holds band, set value and all readings with a tenth to spare on each
 * side. Nothing is cut off: a reading far outside stretches the line instead. Null when there is nothing to draw.
 */
export function stripScale({ min, max, set, readings }: StripInput): StripScale | null {
  const values = [min, max, set, ...readings].filter((value) => value !== null);
  if (values.length === 0) return null;
  const low = Math.min(...values);
  const high = Math.max(...values);
  const width = high > low ? high - low : Math.abs(high) || 1;
  const from = low - width / 10;
  const to = high + width / 10;
  return { from, to, at: (value) => (value - from) / (to - from) };
}

/** Limits are inclusive; an open end lets everything through. */
export function withinBand(value: number, min: number | null, max: number | null): boolean {
  return (min === null || value >= min) && (max === null || value <= max);
}
