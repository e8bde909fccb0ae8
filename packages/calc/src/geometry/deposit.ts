import { bounds, firstRefusal, steelDensityKgM3 } from '../quantities.js';
import {
  calculated,
  refused,
  type Calculation,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { jointBounds } from './joint-bounds.js';

const mm3PerM3 = 1e9;
const mm3PerCm3 = 1000;
const mmPerMetre = 1000;

/** Densities of weld metal in kg/m3; a data sheet's figure may be given in their place. */
export const weldMetalDensities = {
  steel: steelDensityKgM3,
  stainless: 7900,
  aluminium: 2700,
} as const;

export type WeldMetal = keyof typeof weldMetalDensities;

function massKg(areaMm2: number, lengthMm: number, densityKgM3: number): number {
  return (areaMm2 * lengthMm * densityKgM3) / mm3PerM3;
}

interface MassInputs {
  areaMm2: number;
  lengthMm: number;
  densityKgM3?: number | undefined;
}

/** Mass in kg of weld metal of a cross-section (mm2) over a length (mm). Steel, 7850 kg/m3, unless given. */
export function depositedMass(inputs: MassInputs): Calculation<Required<MassInputs>> {
  const { areaMm2, lengthMm, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['areaMm2', areaMm2, bounds.areaMm2],
    ['lengthMm', lengthMm, bounds.lengthMm],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: massKg(areaMm2, lengthMm, densityKgM3),
    unit: 'kg',
    inputs: { areaMm2, lengthMm, densityKgM3 },
    sources: ['geometry', 'weldVolume'],
  });
}

interface WeldInputs {
  areaMm2: number;
  /** Of one weld; of an intermittent weld the welded length. */
  lengthMm: number;
  count: number;
  metal?: WeldMetal | undefined;
}

interface WeldParts {
  densityKgM3: number;
  kgPerMetre: number;
  kgPerWeld: number;
  cm3PerWeld: number;
}

/**
 * Mass in kg of a number of equal welds, with the mass per metre and per weld and the volume per weld.
 * Steel unless another weld metal is named. Refuses a metal without a density.
 */
export function weldDeposit(inputs: WeldInputs): CalculationInParts<WeldInputs, WeldParts> {
  const { areaMm2, lengthMm, count, metal = 'steel' } = inputs;
  const refusal = firstRefusal([
    ['areaMm2', areaMm2, bounds.areaMm2],
    ['lengthMm', lengthMm, bounds.lengthMm],
    ['count', count, bounds.count],
  ]);
  if (refusal) return refused(refusal);
  if (!Object.hasOwn(weldMetalDensities, metal)) {
    const allowed = `one of ${Object.keys(weldMetalDensities).join(', ')}`;
    return refused({ argument: 'metal', given: metal, allowed });
  }
  const densityKgM3 = weldMetalDensities[metal];
  const kgPerWeld = massKg(areaMm2, lengthMm, densityKgM3);
  return {
    ...calculated({
      value: kgPerWeld * count,
      unit: 'kg',
      inputs: { areaMm2, lengthMm, count, metal },
      sources: ['geometry', 'weldVolume', 'densities'],
    }),
    parts: {
      densityKgM3,
      kgPerMetre: massKg(areaMm2, mmPerMetre, densityKgM3),
      kgPerWeld,
      cm3PerWeld: (areaMm2 * lengthMm) / mm3PerCm3,
    },
  };
}

interface IntermittentInputs {
  /** Pieces of weld on the line. */
  count: number;
  pieceMm: number;
  /** Free length between two pieces. */
  spaceMm: number;
}

/**
 * Welded length in mm of an intermittent weld, n pieces of length l with spaces (e) between them, as ISO 2553
 * writes n x l (e). `parts.overallMm` is the line from the first piece to the last, `weldedShare` of it welded.
 */
export function intermittentLength(
  inputs: IntermittentInputs,
): CalculationInParts<IntermittentInputs, { overallMm: number; weldedShare: number }> {
  const { count, pieceMm, spaceMm } = inputs;
  const refusal = firstRefusal([
    ['count', count, bounds.count],
    ['pieceMm', pieceMm, bounds.lengthMm],
    ['spaceMm', spaceMm, { ...bounds.lengthMm, min: 0 }],
  ]);
  if (refusal) return refused(refusal);
  const value = count * pieceMm;
  const overallMm = value + (count - 1) * spaceMm;
  return {
    ...calculated({ value, unit: 'mm', inputs, sources: ['geometry', 'iso2553'] }),
    parts: { overallMm, weldedShare: value / overallMm },
  };
}

interface CapInputs {
  widthMm: number;
  heightMm: number;
}

/** Above this height over width the rule is more than 1 % off the circular segment: it grows as 3/4 (h/w)^2. */
const flatCapRatio = 0.115;

/** Area in mm2 of a cap or of a fillet's bulge. */
export function capMm2({ widthMm, heightMm }: CapInputs): number {
  return (2 / 3) * widthMm * heightMm;
}

/** Says when a cap is too high for its width to be within 1 % of the circular segment. */
export function capWarnings({ widthMm, heightMm }: CapInputs): Warning[] {
  return heightMm > flatCapRatio * widthMm ? [{ code: 'capNotFlat', given: heightMm }] : [];
}

/** Area in mm2 of a convex cap: 2/3 width x height, within 1 % of the circular segment while the cap is flat. */
export function capArea(inputs: CapInputs): Calculation<CapInputs> {
  const refusal = firstRefusal([
    ['widthMm', inputs.widthMm, bounds.sectionMm],
    ['heightMm', inputs.heightMm, jointBounds.openMm],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: capMm2(inputs),
    unit: 'mm2',
    inputs,
    sources: ['capShape'],
    warnings: capWarnings(inputs),
  });
}
