/** One step of a table: up to and including `upTo`, or below it when `below` is set. */
export interface Step<G> {
  upTo: number;
  below?: true;
  give: G;
}

/** Room for the last binary digit of a converted value, so that 3/8 in is 3/8 in. */
const tolerance = 1e-9;

/** The step of a table that a value falls in, in the order of the table; null beyond its end. */
export function stepOf<G>(steps: readonly Step<G>[], value: number): G | null {
  const room = tolerance * Math.max(1, Math.abs(value));
  const step = steps.find(({ upTo, below }) =>
    below ? value < upTo - room : value <= upTo + room,
  );
  return step?.give ?? null;
}

const mmPerInch = 25.4;

/** A length in the unit of the column that is read, and back to mm. Tables are compared in their own unit. */
export function columnOf(unit: 'mm' | 'in') {
  const factor = unit === 'in' ? mmPerInch : 1;
  return {
    inUnit: (mm: number) => mm / factor,
    toMm: (value: number) => value * factor,
    /** The entry of the column, in mm. */
    limitMm: (entry: { mm: number; in: number }) =>
      unit === 'in' ? entry.in * mmPerInch : entry.mm,
  };
}
