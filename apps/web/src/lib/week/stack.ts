export interface StackPart {
  readonly key: string;
  readonly hours: number;
}

export interface StackBox extends StackPart {
  /** Left edge and width as shares of the longest bar, 0 to 1. */
  readonly left: number;
  readonly width: number;
}

/** Hours of all parts of a bar. */
export function totalHours(parts: readonly StackPart[]): number {
  return parts.reduce((sum, part) => sum + part.hours, 0);
}

/** Lays the parts of one bar side by side on a scale of `fullHours`; parts without hours take no place. */
export function stackOf(parts: readonly StackPart[], fullHours: number): StackBox[] {
  if (fullHours <= 0) return [];
  let left = 0;
  return parts
    .filter((part) => part.hours > 0)
    .map((part) => {
      const width = part.hours / fullHours;
      const box = { ...part, left, width };
      left += width;
      return box;
    });
}
