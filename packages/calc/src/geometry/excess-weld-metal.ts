import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

type QualityLevel = 'B' | 'C' | 'D';
type ExcessKind = 'buttExcess' | 'filletConvexity';

interface ExcessRule {
  /** Added to 1 mm per mm of width. */
  perWidth: number;
  maxMm: number;
}

/**
 * ISO 5817 Table 1: height at most 1 mm + a share of the width, and never above a maximum. Excess weld metal of
 * butt welds is No. 1.9 (502), excessive convexity of fillets No. 1.10 (503). Seen in a copy of the 2003 edition.
 */
export const excessRules = {
  buttExcess: {
    B: { perWidth: 0.1, maxMm: 5 },
    C: { perWidth: 0.15, maxMm: 7 },
    D: { perWidth: 0.25, maxMm: 10 },
  },
  filletConvexity: {
    B: { perWidth: 0.1, maxMm: 3 },
    C: { perWidth: 0.15, maxMm: 4 },
    D: { perWidth: 0.25, maxMm: 5 },
  },
} as const satisfies Record<ExcessKind, Record<QualityLevel, ExcessRule>>;

interface ExcessInputs {
  kind: ExcessKind;
  qualityLevel: QualityLevel;
  /** Of the weld's face. */
  widthMm: number;
}

/** Largest height in mm of weld metal above the plate or the flat fillet, by ISO 5817 quality level. */
export function excessLimit(inputs: ExcessInputs): Calculation<ExcessInputs> {
  const { kind, qualityLevel, widthMm } = inputs;
  const refusal = firstRefusal([['widthMm', widthMm, bounds.sectionMm]]);
  if (refusal) return refused(refusal);
  if (!Object.hasOwn(excessRules, kind)) {
    return refused({ argument: 'kind', given: kind, allowed: 'buttExcess or filletConvexity' });
  }
  if (!Object.hasOwn(excessRules[kind], qualityLevel)) {
    return refused({ argument: 'qualityLevel', given: qualityLevel, allowed: 'B, C or D' });
  }
  const { perWidth, maxMm } = excessRules[kind][qualityLevel];
  const value = Math.min(1 + perWidth * widthMm, maxMm);
  return calculated({ value, unit: 'mm', inputs, sources: ['iso5817'] });
}
