import { bounds, firstRefusal, steelDensityKgM3 } from '../quantities.js';
import { calculated, refused, type CalculationInParts, type Warning } from '../result.js';

type FilletTableEdition = '2015' | '2020';

const filletTables: Record<FilletTableEdition, string> = {
  '2015': 'Table 5.7',
  '2020': 'Table 7.7',
};

/** Least leg by base-metal thickness; the thickest row has no upper end. */
const leastLegs = [
  { upToMm: 6, legMm: 3 },
  { upToMm: 12, legMm: 5 },
  { upToMm: 20, legMm: 6 },
] as const;
const thickestLegMm = 8;
/** Least leg under cyclic load where the table has less. */
const cyclicLegMm = 5;

interface LeastFilletInputs {
  thinnerMm: number;
  thickerMm: number;
  /** Gas-metal arc, cored wire, submerged arc, or stick electrodes low in hydrogen. */
  lowHydrogen: boolean;
  /** Preheat was worked out by calculation, not taken from the table of least preheat. */
  calculatedPreheat: boolean;
  cyclicLoad: boolean;
  edition: FilletTableEdition;
}

interface LeastFilletParts {
  table: string;
  /** The thickness by which the table was read. */
  governingMm: number;
  /** The leg in the table, before it is held to the thinner part. */
  tabulatedLegMm: number;
}

/**
 * Least leg in mm of a fillet weld by AWS D1.1, by the thinner part for low-hydrogen welding or calculated
 * preheat, else by the thicker part and in a single run. It need not exceed the thinner part. The rows are
 * widely printed; the rule which part governs is from memory.
 */
export function leastFilletLeg(
  inputs: LeastFilletInputs,
): CalculationInParts<LeastFilletInputs, LeastFilletParts> {
  const { thinnerMm, thickerMm, edition } = inputs;
  const refusal = firstRefusal([
    ['thinnerMm', thinnerMm, bounds.sectionMm],
    ['thickerMm', thickerMm, bounds.sectionMm],
  ]);
  if (refusal) return refused(refusal);
  if (thickerMm < thinnerMm) {
    const allowed = `not less than the thinner part, ${thinnerMm} mm`;
    return refused({ argument: 'thickerMm', given: thickerMm, allowed });
  }
  if (!Object.hasOwn(filletTables, edition)) {
    return refused({ argument: 'edition', given: edition, allowed: '2015 or 2020' });
  }
  const byThinner = inputs.lowHydrogen || inputs.calculatedPreheat;
  const governingMm = byThinner ? thinnerMm : thickerMm;
  const tabulatedLegMm = tabulated(governingMm, inputs.cyclicLoad);
  const warnings: Warning[] = [{ code: 'limitFromMemory', given: null }];
  if (!byThinner) warnings.push({ code: 'singleRunOnly', given: null });
  return {
    ...calculated({
      value: Math.min(tabulatedLegMm, thinnerMm),
      unit: 'mm',
      inputs,
      sources: ['awsLeastFillet'],
      warnings,
    }),
    parts: { table: filletTables[edition], governingMm, tabulatedLegMm },
  };
}

function tabulated(thicknessMm: number, cyclicLoad: boolean): number {
  const legMm = leastLegs.find(({ upToMm }) => thicknessMm <= upToMm)?.legMm ?? thickestLegMm;
  return cyclicLoad ? Math.max(legMm, cyclicLegMm) : legMm;
}

interface OverWeldInputs {
  drawnThroatMm: number;
  /** As measured, or as the settings lay it. */
  laidThroatMm: number;
  /** All welds of the size together. */
  lengthMm: number;
  /** What a kilogram of weld metal costs laid, labour and all; null where nobody has worked it out. */
  costPerKg?: number | null | undefined;
  densityKgM3?: number | undefined;
}

interface OverWeldParts {
  /** How much larger the throat is, as a share of the drawn one. The metal grows with its square. */
  extraThroatShare: number;
  extraMassKg: number;
  extraCost: number | null;
}

/**
 * Share of weld metal that a flat fillet larger than drawn takes on top of the drawn one: (a laid / a drawn)^2 - 1,
 * with the mass in kg and its cost. Refuses a smaller one: that is an undersized weld, not a saving.
 */
export function overWelding(
  inputs: OverWeldInputs,
): CalculationInParts<OverWeldInputs, OverWeldParts> {
  const { drawnThroatMm, laidThroatMm, lengthMm, costPerKg = null } = inputs;
  const { densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['drawnThroatMm', drawnThroatMm, bounds.sectionMm],
    ['laidThroatMm', laidThroatMm, bounds.sectionMm],
    ['lengthMm', lengthMm, bounds.lengthMm],
    ['costPerKg', costPerKg ?? 0, { min: 0, max: 1_000_000, unit: 'per kg' }],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  if (laidThroatMm < drawnThroatMm) {
    const allowed = `not less than the drawn throat, ${drawnThroatMm} mm`;
    return refused({ argument: 'laidThroatMm', given: laidThroatMm, allowed });
  }
  const extraMm2 = laidThroatMm ** 2 - drawnThroatMm ** 2;
  const extraMassKg = (extraMm2 * lengthMm * densityKgM3) / 1e9;
  return {
    ...calculated({
      value: extraMm2 / drawnThroatMm ** 2,
      unit: 'share',
      inputs: { ...inputs, costPerKg, densityKgM3 },
      sources: ['geometry'],
    }),
    parts: {
      extraThroatShare: laidThroatMm / drawnThroatMm - 1,
      extraMassKg,
      extraCost: costPerKg === null ? null : extraMassKg * costPerKg,
    },
  };
}
