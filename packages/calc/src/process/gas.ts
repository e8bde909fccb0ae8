import { bounds, firstRefusal, minutesPerHour } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

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
