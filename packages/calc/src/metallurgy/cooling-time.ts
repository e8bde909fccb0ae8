import { firstOutside, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type ArgumentRefusal,
  type Bound,
  type Calculation,
  type Warning,
} from '../result.js';
import { metalBounds } from './bounds.js';

const scatterPct = 10;

/** Towards 500 degC the formulas run away, because the plate itself no longer lets the weld cool to it. */
export const coolingValidity = {
  plateC: { min: 0, max: 499, unit: 'degC' },
} satisfies Record<string, Bound>;

export const coolingWarnings: readonly Warning[] = [
  { code: 'coordinatorDecides', given: null },
  { code: 'methodScatters', given: scatterPct },
];

/** Time in s per kJ/mm without a shape factor, heat flowing off in depth too. */
export function perHeat3d(plateC: number): number {
  return (6700 - 5 * plateC) * (1 / (500 - plateC) - 1 / (800 - plateC));
}

/** Time in s per (kJ/mm per mm)^2 without a shape factor, heat flowing off in the plane of the plate. */
export function perHeat2d(plateC: number): number {
  return (4300 - 4.3 * plateC) * 1e5 * (1 / (500 - plateC) ** 2 - 1 / (800 - plateC) ** 2);
}

interface HeatAndPlate {
  /** Heat input, with the factor k. */
  heatInputKjMm: number;
  /** Preheat or interpass temperature. */
  plateC: number;
}

export function plateRefusal(
  plateC: number,
  rows: readonly (readonly [string, unknown, Bound])[],
): ArgumentRefusal | null {
  return (
    firstRefusal([...rows, ['plateC', plateC, metalBounds.temperatureC]]) ??
    firstOutside('coolingTime', [['plateC', plateC, coolingValidity.plateC]])
  );
}

function inSeconds<I extends object>(value: number, inputs: I) {
  return calculated({
    value,
    unit: 's',
    inputs,
    sources: ['coolingTime', 'steelMakerHandbook'],
    warnings: coolingWarnings,
    validity: coolingValidity,
  });
}

type ThreeDInputs = HeatAndPlate & { shapeFactor3d: number };

/**
 * Cooling time t8/5 in s of a thick plate: (6700 - 5 T0) Q (1/(500-T0) - 1/(800-T0)) F3. For unalloyed and low
 * alloyed ferritic steel, T0 from 0 to 499 degC. Source: EN 1011-2 Annex D.
 */
export function coolingTime3d(inputs: ThreeDInputs): Calculation<ThreeDInputs> {
  const { heatInputKjMm, plateC, shapeFactor3d } = inputs;
  const refusal = plateRefusal(plateC, [
    ['heatInputKjMm', heatInputKjMm, metalBounds.heatInputKjMm],
    ['shapeFactor3d', shapeFactor3d, metalBounds.shapeFactor],
  ]);
  if (refusal) return refused(refusal);
  return inSeconds(perHeat3d(plateC) * heatInputKjMm * shapeFactor3d, inputs);
}

type TwoDInputs = HeatAndPlate & { thicknessMm: number; shapeFactor2d: number };

/**
 * Cooling time t8/5 in s of a thin plate: (4300 - 4.3 T0) 10^5 (Q/d)^2 (1/(500-T0)^2 - 1/(800-T0)^2) F2. Same
 * steels, range and source as in three dimensions.
 */
export function coolingTime2d(inputs: TwoDInputs): Calculation<TwoDInputs> {
  const { heatInputKjMm, plateC, thicknessMm, shapeFactor2d } = inputs;
  const refusal = plateRefusal(plateC, [
    ['heatInputKjMm', heatInputKjMm, metalBounds.heatInputKjMm],
    ['thicknessMm', thicknessMm, metalBounds.thicknessMm],
    ['shapeFactor2d', shapeFactor2d, metalBounds.shapeFactor],
  ]);
  if (refusal) return refused(refusal);
  return inSeconds(perHeat2d(plateC) * (heatInputKjMm / thicknessMm) ** 2 * shapeFactor2d, inputs);
}

/** Thickness in mm at which both formulas give the same time, shape factors left out. */
export function transitionMm({ heatInputKjMm, plateC }: HeatAndPlate): number {
  const ratio = ((4300 - 4.3 * plateC) * 1e5) / (6700 - 5 * plateC);
  return Math.sqrt(ratio * heatInputKjMm * (1 / (500 - plateC) + 1 / (800 - plateC)));
}

/** Transition thickness in mm: thinner plate cools in two dimensions, thicker plate in three. */
export function transitionThickness(inputs: HeatAndPlate): Calculation<HeatAndPlate> {
  const refusal = plateRefusal(inputs.plateC, [
    ['heatInputKjMm', inputs.heatInputKjMm, metalBounds.heatInputKjMm],
  ]);
  if (refusal) return refused(refusal);
  return { ...inSeconds(transitionMm(inputs), inputs), unit: 'mm' };
}
