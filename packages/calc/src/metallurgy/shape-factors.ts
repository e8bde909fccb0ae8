interface FactorBand {
  low: number;
  high: number;
}

interface ShapeFactor {
  /** For heat that flows off in the plane of the plate. */
  twoD: FactorBand;
  /** For heat that flows off into the depth as well. */
  threeD: FactorBand;
}

function one(factor: number): FactorBand {
  return { low: factor, high: factor };
}

/**
 * Shape factors of EN 1011-2 Annex D by form of weld. All of middling confidence: seen in a German copy with
 * gaps; the 2-D factor of butt runs, the 3-D factors of corner, lap and later T-fillet runs and the lower end at
 * a corner are from memory.
 */
export const shapeFactors = {
  beadOnPlate: { twoD: one(1), threeD: one(1) },
  buttRun: { twoD: one(0.9), threeD: one(0.9) },
  vRootRun: { twoD: one(1), threeD: { low: 1, high: 1.2 } },
  vCapRun: { twoD: one(1), threeD: { low: 0.9, high: 1 } },
  teeFilletFirstOrSecond: { twoD: { low: 0.45, high: 0.67 }, threeD: one(0.67) },
  teeFilletThirdOrFourth: { twoD: { low: 0.3, high: 0.67 }, threeD: one(0.67) },
  cornerFillet: { twoD: { low: 0.67, high: 0.9 }, threeD: one(0.67) },
  lapFillet: { twoD: one(0.7), threeD: one(0.67) },
} as const satisfies Record<string, ShapeFactor>;

export type WeldForm = keyof typeof shapeFactors;
