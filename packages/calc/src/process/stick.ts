import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

/** Keeps an exact number of electrodes from being rounded up by the last binary digit. */
const wholeTolerance = 1e-9;
const gramsPerKilogram = 1000;

interface StubInputs {
  /** Share of the melted length that stays in the weld, stub loss not in it. */
  efficiency: number;
  electrodeMm: number;
  /** Length thrown away. */
  stubMm: number;
}

function stubRefusal({ efficiency, electrodeMm, stubMm }: StubInputs) {
  return (
    firstRefusal([
      ['efficiency', efficiency, bounds.share],
      ['electrodeMm', electrodeMm, { min: 50, max: 1_000, unit: 'mm' }],
    ]) ?? firstRefusal([['stubMm', stubMm, { min: 0, max: electrodeMm * 0.9, unit: 'mm' }]])
  );
}

/**
 * Share of the electrodes bought that stays in the weld: efficiency x (length - stub) / length.
 * Source: handbook table of stub loss.
 */
export function stickEfficiency(inputs: StubInputs): Calculation<StubInputs> {
  const refusal = stubRefusal(inputs);
  if (refusal) return refused(refusal);
  const { efficiency, electrodeMm, stubMm } = inputs;
  return calculated({
    value: (efficiency * (electrodeMm - stubMm)) / electrodeMm,
    unit: '1',
    inputs,
    sources: ['stubLoss'],
  });
}

type ElectrodeInputs = StubInputs & {
  massKg: number;
  /** Of one whole electrode, coating and all. */
  electrodeMassG: number;
};

interface ElectrodeParts {
  laidPerElectrodeG: number;
  boughtKg: number;
}

/** Whole electrodes for an amount of weld metal (kg), rounded up. */
export function electrodesForMetal(
  inputs: ElectrodeInputs,
): CalculationInParts<ElectrodeInputs, ElectrodeParts> {
  const refusal =
    stubRefusal(inputs) ??
    firstRefusal([
      ['massKg', inputs.massKg, { ...bounds.massKg, min: 0.0001 }],
      ['electrodeMassG', inputs.electrodeMassG, { min: 1, max: 1_000, unit: 'g' }],
    ]);
  if (refusal) return refused(refusal);
  const { efficiency, electrodeMm, stubMm, massKg, electrodeMassG } = inputs;
  const laidPerElectrodeG = (electrodeMassG * efficiency * (electrodeMm - stubMm)) / electrodeMm;
  const exact = (massKg * gramsPerKilogram) / laidPerElectrodeG;
  const value = Math.max(1, Math.ceil(exact * (1 - wholeTolerance)));
  return {
    ...calculated({
      value,
      unit: 'electrodes',
      inputs,
      sources: ['massBalance', 'stubLoss'],
    }),
    parts: { laidPerElectrodeG, boughtKg: (value * electrodeMassG) / gramsPerKilogram },
  };
}
