import type { ProcessCoverage } from '@tackboard/contract';

export type CoverageCell = ProcessCoverage['cells'][number];
/** Who holds all of a step. */
export type Hold = 'both' | 'procedure' | 'person' | 'none';

export function holdOf({ procedures, people }: Pick<CoverageCell, 'procedures' | 'people'>): Hold {
  if (procedures.length > 0) return people.length > 0 ? 'both' : 'procedure';
  return people.length > 0 ? 'person' : 'none';
}

export function isHole({ withoutProcedure, withoutPerson }: CoverageCell): boolean {
  return withoutProcedure.length > 0 || withoutPerson.length > 0;
}

const labelPx = 70;
const columnPx = 74;
const rowPx = 34;
const topPx = 26;

interface DrawnCell {
  readonly x: number;
  readonly y: number;
  readonly hold: Hold;
  readonly welds: number;
  readonly hole: boolean;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly cells: readonly DrawnCell[];
  /** Limits stand on the lines between the steps. */
  readonly limits: readonly { readonly x: number; readonly mm: number }[];
  readonly rows: readonly { readonly y: number; readonly position: string }[];
}

/** Steps of even width: what counts is which step a plate falls in, not how wide the step is. */
export function pictureOf({ positions, cells }: ProcessCoverage): Picture {
  const steps = stepsOf(cells);
  const columnOf = new Map(steps.map((fromMm, at) => [fromMm, at]));
  const rowOf = new Map(positions.map((position, at) => [position, at]));
  return {
    width: labelPx + steps.length * columnPx,
    height: topPx + positions.length * rowPx,
    cells: cells.map((cell) => ({
      x: labelPx + (columnOf.get(cell.fromMm) ?? 0) * columnPx,
      y: topPx + (rowOf.get(cell.position) ?? 0) * rowPx,
      hold: holdOf(cell),
      welds: cell.welds,
      hole: isHole(cell),
    })),
    limits: steps.flatMap((fromMm, at) =>
      fromMm === null ? [] : [{ x: labelPx + at * columnPx, mm: fromMm }],
    ),
    rows: positions.map((position, at) => ({ y: topPx + at * rowPx, position })),
  };
}

export const cellSize = { width: columnPx, height: rowPx };

function stepsOf(cells: readonly CoverageCell[]): (number | null)[] {
  const from = [...new Set(cells.map(({ fromMm }) => fromMm))];
  return from.toSorted((a, b) => (a ?? -Infinity) - (b ?? -Infinity));
}
