import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

const joulesPerKwh = 3_600_000;
const wattsPerKilowatt = 1000;

interface ArcPower {
  currentA: number;
  voltageV: number;
  /** Arc power over power drawn from the mains. */
  sourceEfficiency: number;
}

function powerRows(inputs: ArcPower) {
  return [
    ['currentA', inputs.currentA, bounds.currentA],
    ['voltageV', inputs.voltageV, bounds.voltageV],
    ['sourceEfficiency', inputs.sourceEfficiency, bounds.share],
  ] as const;
}

type DrawnInputs = ArcPower & {
  arcS: number;
  /** Drawn while no arc burns, and for how long. */
  idleW?: number | undefined;
  idleS?: number | undefined;
};

/** Electricity in kWh drawn by a power source: arc power / efficiency over the arc time, and idling beside it. */
export function electricityDrawn(
  inputs: DrawnInputs,
): CalculationInParts<Required<DrawnInputs>, { arcKwh: number; idleKwh: number }> {
  const { currentA, voltageV, sourceEfficiency, arcS, idleW = 0, idleS = 0 } = inputs;
  const refusal = firstRefusal([
    ...powerRows(inputs),
    ['arcS', arcS, bounds.positiveS],
    ['idleW', idleW, { ...bounds.powerW, min: 0 }],
    ['idleS', idleS, bounds.durationS],
  ]);
  if (refusal) return refused(refusal);
  const arcKwh = (currentA * voltageV * arcS) / sourceEfficiency / joulesPerKwh;
  const idleKwh = (idleW * idleS) / joulesPerKwh;
  return {
    ...calculated({
      value: arcKwh + idleKwh,
      unit: 'kWh',
      inputs: { currentA, voltageV, sourceEfficiency, arcS, idleW, idleS },
      sources: ['energyBalance'],
    }),
    parts: { arcKwh, idleKwh },
  };
}

type PerKgInputs = ArcPower & { depositionKgH: number };

/** Electricity in kWh per kg of metal laid while the arc burns: U I / (1000 x efficiency x kg/h). */
export function electricityPerKg(inputs: PerKgInputs): Calculation<PerKgInputs> {
  const { currentA, voltageV, sourceEfficiency, depositionKgH } = inputs;
  const refusal = firstRefusal([
    ...powerRows(inputs),
    ['depositionKgH', depositionKgH, bounds.depositionKgH],
  ]);
  if (refusal) return refused(refusal);
  const value = (currentA * voltageV) / (wattsPerKilowatt * sourceEfficiency * depositionKgH);
  return calculated({ value, unit: 'kWh/kg', inputs, sources: ['energyBalance'] });
}
