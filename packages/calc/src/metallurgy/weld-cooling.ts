import { calculated, refused, type ArgumentRefusal, type CalculationInParts } from '../result.js';
import { metalBounds } from './bounds.js';
import {
  coolingValidity,
  coolingWarnings,
  perHeat2d,
  perHeat3d,
  plateRefusal,
  transitionMm,
} from './cooling-time.js';
import { shapeFactors, type WeldForm } from './shape-factors.js';

type HeatFlow = '2d' | '3d';

interface Plate {
  /** Preheat or interpass temperature. */
  plateC: number;
  thicknessMm: number;
  weldForm: WeldForm;
}
type WeldInputs = Plate & { heatInputKjMm: number };

interface CoolingParts {
  /** How the heat flows off: in the plane of the plate, or into its depth too. */
  flow: HeatFlow;
  transitionMm: number;
  /** The band that the shape factors leave. */
  lowS: number;
  highS: number;
}

function formRefusal(weldForm: WeldForm): ArgumentRefusal | null {
  if (Object.hasOwn(shapeFactors, weldForm)) return null;
  const allowed = `one of ${Object.keys(shapeFactors).join(', ')}`;
  return { argument: 'weldForm', given: weldForm, allowed };
}

/** Stays on the thick side of the change by the last binary digits. */
const justBelow = 1 - 1e-12;

const result = {
  sources: ['coolingTime', 'steelMakerHandbook', 'shapeFactors'],
  warnings: coolingWarnings,
  validity: coolingValidity,
} as const;

/**
 * Cooling time t8/5 in s of a weld: two- or three-dimensional by the transition thickness, as the band from
 * `parts.lowS` to `parts.highS` that the shape factors of its form leave; the value is the upper end.
 * Source: EN 1011-2 Annex D. The approved WPS and the responsible welding coordinator decide.
 */
export function weldCoolingTime(inputs: WeldInputs): CalculationInParts<WeldInputs, CoolingParts> {
  const { heatInputKjMm, plateC, thicknessMm, weldForm } = inputs;
  const refusal =
    plateRefusal(plateC, [
      ['heatInputKjMm', heatInputKjMm, metalBounds.heatInputKjMm],
      ['thicknessMm', thicknessMm, metalBounds.thicknessMm],
    ]) ?? formRefusal(weldForm);
  if (refusal) return refused(refusal);
  const limitMm = transitionMm(inputs);
  const flow = thicknessMm < limitMm ? '2d' : '3d';
  const plainS =
    flow === '2d'
      ? perHeat2d(plateC) * (heatInputKjMm / thicknessMm) ** 2
      : perHeat3d(plateC) * heatInputKjMm;
  const factor = shapeFactors[weldForm][flow === '2d' ? 'twoD' : 'threeD'];
  const highS = plainS * factor.high;
  return {
    ...calculated({ value: highS, unit: 's', inputs, ...result }),
    parts: { flow, transitionMm: limitMm, lowS: plainS * factor.low, highS },
  };
}

type LargestInputs = Plate & { wantedS: number };

/**
 * Largest heat input in kJ/mm up to which no run cools slower than the wanted t8/5, at the upper end of the
 * shape factors. `parts.flow` is the flow of heat at that heat input. The result of the formulas turned round.
 */
export function largestHeatInput(
  inputs: LargestInputs,
): CalculationInParts<LargestInputs, { flow: HeatFlow }> {
  const { wantedS, plateC, thicknessMm, weldForm } = inputs;
  const refusal =
    plateRefusal(plateC, [
      ['wantedS', wantedS, metalBounds.coolingS],
      ['thicknessMm', thicknessMm, metalBounds.thicknessMm],
    ]) ?? formRefusal(weldForm);
  if (refusal) return refused(refusal);
  const { twoD, threeD } = shapeFactors[weldForm];
  const thickKjMm = wantedS / (perHeat3d(plateC) * threeD.high);
  // The transition thickness grows with the root of the heat input: this is the heat input at which it is d.
  const changeKjMm = (thicknessMm / transitionMm({ heatInputKjMm: 1, plateC })) ** 2;
  if (thickKjMm <= changeKjMm) return largest(thickKjMm, '3d', inputs);
  const thinKjMm = thicknessMm * Math.sqrt(wantedS / (perHeat2d(plateC) * twoD.high));
  // Where the factor jumps up at the change, no thin-plate heat input meets the wanted time.
  if (thinKjMm <= changeKjMm) return largest(changeKjMm * justBelow, '3d', inputs);
  return largest(thinKjMm, '2d', inputs);
}

function largest(value: number, flow: HeatFlow, inputs: LargestInputs) {
  return { ...calculated({ value, unit: 'kJ/mm', inputs, ...result }), parts: { flow } };
}
