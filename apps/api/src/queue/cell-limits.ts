/** What a step asks of a cell besides its kind; null where it is not known. */
export interface Handling {
  readonly massKg: number | null;
  readonly reachMm: number | null;
}

/** What a cell can do; null where it is not on file. */
export interface CellLimits {
  readonly code: string;
  readonly loadKg: number | null;
  readonly reachMm: number | null;
}

/** Why a part is too heavy or too large for a cell, in words; null where it is not, or where it cannot be said. */
export function beyondLimits(step: Handling, cell: CellLimits): string | null {
  if (step.massKg !== null && cell.loadKg !== null && step.massKg > cell.loadKg)
    return `the part with its fixture has ${step.massKg} kg, ${cell.code} carries ${cell.loadKg} kg`;
  if (step.reachMm !== null && cell.reachMm !== null && step.reachMm > cell.reachMm)
    return `its farthest weld lies ${step.reachMm} mm out, ${cell.code} reaches ${cell.reachMm} mm`;
  return null;
}
