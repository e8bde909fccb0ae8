import { firstOutside, firstRefusal } from '../quantities.js';
import { calculated, refused, type Bound, type CalculationInParts } from '../result.js';
import { metalBounds } from './bounds.js';

/** Distance from the weld line in mm over which method A averages a thickness. */
const averagedOverMm = 75;

/** One way for the heat to flow off: a plate, with one step in its thickness at most. */
export interface HeatPath {
  thicknessMm: number;
  /** Distance from the weld line to a step in thickness, and what follows. */
  step?: { atMm: number; thicknessMm: number } | null | undefined;
}

interface CombinedInputs {
  /** A butt weld has two paths, a T-joint three: the flange counts to both sides. */
  paths: readonly HeatPath[];
}

function pathRows(path: HeatPath, index: number) {
  const { step } = path;
  const rows = [
    [`paths[${index}].thicknessMm`, path.thicknessMm, metalBounds.thicknessMm],
  ] as const;
  if (!step) return rows;
  return [
    ...rows,
    [`paths[${index}].step.atMm`, step.atMm, { min: 0, max: 100_000, unit: 'mm' }],
    [`paths[${index}].step.thicknessMm`, step.thicknessMm, metalBounds.thicknessMm],
  ] as const;
}

function averageMm({ thicknessMm, step }: HeatPath): number {
  const nearMm = Math.min(averagedOverMm, step?.atMm ?? averagedOverMm);
  const beyondMm = averagedOverMm - nearMm;
  return (nearMm * thicknessMm + beyondMm * (step?.thicknessMm ?? 0)) / averagedOverMm;
}

/**
 * Combined thickness in mm of EN 1011-2 method A: the sum of the thicknesses of two to four heat paths, each
 * averaged over 75 mm from the weld line. Only for method A; method B takes the thickness of one plate.
 */
export function combinedThickness(
  inputs: CombinedInputs,
): CalculationInParts<CombinedInputs, { pathMm: number[] }> {
  const { paths } = inputs;
  const refusal = firstRefusal(paths.flatMap(pathRows));
  if (refusal) return refused(refusal);
  if (paths.length < 2 || paths.length > 4) {
    return refused({ argument: 'paths', given: paths, allowed: 'two to four heat paths' });
  }
  const pathMm = paths.map(averageMm);
  return {
    ...calculated({
      value: pathMm.reduce((sum, each) => sum + each, 0),
      unit: 'mm',
      inputs,
      sources: ['en1011MethodA'],
    }),
    parts: { pathMm },
  };
}

type HydrogenScale = 'A' | 'B' | 'C' | 'D' | 'E';

const hydrogenScales: readonly { scale: HydrogenScale; upToMlPer100g: number }[] = [
  { scale: 'E', upToMlPer100g: 3 },
  { scale: 'D', upToMlPer100g: 5 },
  { scale: 'C', upToMlPer100g: 10 },
  { scale: 'B', upToMlPer100g: 15 },
];

/** Table C.1 by carbon equivalent: the limit in mm at 1 and at 2 kJ/mm. It stops at 100 mm. */
const tableC1: Record<'0.43' | '0.49', Record<HydrogenScale, readonly [number, number]>> = {
  '0.49': { A: [25, 50], B: [30, 55], C: [35, 65], D: [50, 100], E: [60, 100] },
  '0.43': { A: [40, 80], B: [50, 90], C: [60, 100], D: [100, 100], E: [100, 100] },
};

const validity = {
  cePct: { min: 0.3, max: 0.49, unit: '%' },
  heatInputKjMm: { min: 1, max: 2, unit: 'kJ/mm' },
} satisfies Record<string, Bound>;

interface LimitInputs {
  /** CE(IIW) of the steel. */
  cePct: number;
  hydrogenMlPer100g: number;
  heatInputKjMm: number;
}

interface LimitParts {
  hydrogenScale: HydrogenScale;
  /** The column that was read: the next carbon equivalent above and the next heat input below what was given. */
  columnCePct: 0.43 | 0.49;
  columnHeatInputKjMm: 1 | 2;
}

/**
 * Largest combined thickness in mm that EN 1011-2 method A lets be welded without preheat, Table C.1. Between
 * printed columns the safer one is read; outside CE 0.30-0.49 and 1-2 kJ/mm it answers outside the method. What
 * preheat a thicker joint takes is read off the figures of the standard, which are not formulas.
 */
export function methodALimit(inputs: LimitInputs): CalculationInParts<LimitInputs, LimitParts> {
  const refusal =
    firstRefusal([
      ['cePct', inputs.cePct, metalBounds.carbonEquivalentPct],
      ['hydrogenMlPer100g', inputs.hydrogenMlPer100g, metalBounds.hydrogenMlPer100g],
      ['heatInputKjMm', inputs.heatInputKjMm, metalBounds.heatInputKjMm],
    ]) ??
    firstOutside('en1011MethodA', [
      ['cePct', inputs.cePct, validity.cePct],
      ['heatInputKjMm', inputs.heatInputKjMm, validity.heatInputKjMm],
    ]);
  if (refusal) return refused(refusal);
  const columnCePct = inputs.cePct <= 0.43 ? 0.43 : 0.49;
  const columnHeatInputKjMm = inputs.heatInputKjMm < 2 ? 1 : 2;
  const hydrogenScale = scaleOf(inputs.hydrogenMlPer100g);
  const row = tableC1[`${columnCePct}`][hydrogenScale];
  return {
    ...calculated({
      value: columnHeatInputKjMm === 1 ? row[0] : row[1],
      unit: 'mm',
      inputs,
      sources: ['en1011MethodA'],
      warnings: [{ code: 'coordinatorDecides', given: null }],
      validity,
    }),
    parts: { hydrogenScale, columnCePct, columnHeatInputKjMm },
  };
}

function scaleOf(hydrogenMlPer100g: number): HydrogenScale {
  return hydrogenScales.find((row) => hydrogenMlPer100g <= row.upToMlPer100g)?.scale ?? 'A';
}
