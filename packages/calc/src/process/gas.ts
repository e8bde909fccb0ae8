import { bounds, firstRefusal, minutesPerHour, secondsPerMinute } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

interface PerMetreInputs {
  gasFlowLMin: number;
  travelMmMin: number;
}

/** Shielding gas in l per metre of weld while the arc burns: 1000 flow / travel. Pre- and post-flow not in it. */
export function gasPerMetre(inputs: PerMetreInputs): Calculation<PerMetreInputs> {
  const refusal = firstRefusal([
    ['gasFlowLMin', inputs.gasFlowLMin, bounds.gasFlowLMin],
    ['travelMmMin', inputs.travelMmMin, bounds.travelMmMin],
  ]);
  if (refusal) return refused(refusal);
  const value = (1000 * inputs.gasFlowLMin) / inputs.travelMmMin;
  return calculated({ value, unit: 'l/m', inputs, sources: ['timeSum'] });
}

interface PerKgInputs {
  gasFlowLMin: number;
  depositionKgH: number;
}

/** Shielding gas in l per kg of metal laid: 60 flow / deposition rate. */
export function gasPerKg(inputs: PerKgInputs): Calculation<PerKgInputs> {
  const refusal = firstRefusal([
    ['gasFlowLMin', inputs.gasFlowLMin, bounds.gasFlowLMin],
    ['depositionKgH', inputs.depositionKgH, bounds.depositionKgH],
  ]);
  if (refusal) return refused(refusal);
  const value = (minutesPerHour * inputs.gasFlowLMin) / inputs.depositionKgH;
  return calculated({ value, unit: 'l/kg', inputs, sources: ['timeSum'] });
}

interface CylinderInputs {
  waterVolumeL: number;
  pressureBar: number;
  reserveBar?: number | undefined;
}

/**
 * Litres left in a cylinder down to the reserve pressure, as an ideal gas. Real fills differ (argon mixtures
 * hold more), so the supplier's label is the better figure. Below the reserve there is none to use.
 */
export function cylinderGas(inputs: CylinderInputs): Calculation<Required<CylinderInputs>> {
  const { waterVolumeL, pressureBar, reserveBar = 0 } = inputs;
  const refusal = firstRefusal([
    ['waterVolumeL', waterVolumeL, bounds.waterVolumeL],
    ['pressureBar', pressureBar, bounds.pressureBar],
    ['reserveBar', reserveBar, bounds.pressureBar],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: waterVolumeL * Math.max(0, pressureBar - reserveBar),
    unit: 'l',
    inputs: { waterVolumeL, pressureBar, reserveBar },
    sources: ['idealGas'],
    warnings: [{ code: 'idealGas', given: null }],
  });
}

interface WeldGasInputs {
  gasFlowLMin: number;
  arcS: number;
  /** Times that the gas opens. */
  starts: number;
  preFlowS: number;
  postFlowS: number;
  /** Gas bought over gas calculated, measured at the cell; 1 where it has not been. */
  lossFactor?: number | undefined;
}

interface WeldGasParts {
  arcL: number;
  preAndPostL: number;
  lostL: number;
}

/** Shielding gas in l of a weld or a part: flow x (arc + pre- and post-flow of every start) x loss factor. */
export function weldGas(
  inputs: WeldGasInputs,
): CalculationInParts<Required<WeldGasInputs>, WeldGasParts> {
  const { gasFlowLMin, arcS, starts, preFlowS, postFlowS, lossFactor = 1 } = inputs;
  const refusal = firstRefusal([
    ['gasFlowLMin', gasFlowLMin, bounds.gasFlowLMin],
    ['arcS', arcS, bounds.positiveS],
    ['starts', starts, bounds.count],
    ['preFlowS', preFlowS, bounds.durationS],
    ['postFlowS', postFlowS, bounds.durationS],
    ['lossFactor', lossFactor, bounds.lossFactor],
  ]);
  if (refusal) return refused(refusal);
  const arcL = (gasFlowLMin * arcS) / secondsPerMinute;
  const preAndPostL = (gasFlowLMin * starts * (preFlowS + postFlowS)) / secondsPerMinute;
  const neededL = arcL + preAndPostL;
  return {
    ...calculated({
      value: neededL * lossFactor,
      unit: 'l',
      inputs: { gasFlowLMin, arcS, starts, preFlowS, postFlowS, lossFactor },
      sources: ['timeSum', 'gasLoss'],
    }),
    parts: { arcL, preAndPostL, lostL: neededL * (lossFactor - 1) },
  };
}

interface LossInputs {
  /** By the cylinders or the meter of the cell. */
  usedL: number;
  /** By flow, arc time and starts of the same time. */
  calculatedL: number;
}

/** Loss factor of a cell: gas used over gas calculated. Below 1 a meter, a flow or a time is wrong, and it says so. */
export function gasLossFactor(inputs: LossInputs): Calculation<LossInputs> {
  const volume = { ...bounds.volumeL, min: 1 };
  const refusal = firstRefusal([
    ['usedL', inputs.usedL, volume],
    ['calculatedL', inputs.calculatedL, volume],
  ]);
  if (refusal) return refused(refusal);
  const value = inputs.usedL / inputs.calculatedL;
  return calculated({
    value,
    unit: '1',
    inputs,
    sources: ['gasLoss'],
    warnings: value < 1 ? [{ code: 'lossBelowOne', given: value }] : [],
  });
}
