import { bounds, firstRefusal, minutesPerHour, steelDensityKgM3 } from '../quantities.js';
import { calculated, refused, type Calculation, type Warning } from '../result.js';
import { processRow, within } from './process-table.js';

const gramsPerKilogram = 1000;

/** Lowest and highest deposition efficiency that published tables give for wires; memory for single processes. */
const usualEfficiency = { min: 0.75, max: 0.99 };

/** Share of a solid wire that stays in the weld under gas, where nobody has measured it; common practice. */
export const assumedWireEfficiency = 0.96;

/** A warning when an efficiency is legal but outside what tables give for the process, or for any wire. */
export function efficiencyWarnings(efficiency: number, process = ''): Warning[] {
  const usual = processRow(process)?.efficiency ?? usualEfficiency;
  return within(efficiency, usual) ? [] : [{ code: 'efficiencyUnusual', given: efficiency }];
}

/** Cross-section of a wire in mm2. */
export function wireAreaMm2(wireDiameterMm: number): number {
  return (Math.PI / 4) * wireDiameterMm ** 2;
}

/** Grams per metre; mm2 x kg/m3 is mg/m. */
export function wireGramsPerMetre(wireDiameterMm: number, densityKgM3: number): number {
  return (wireAreaMm2(wireDiameterMm) * densityKgM3) / 1000;
}

interface WireInputs {
  wireDiameterMm: number;
  densityKgM3?: number | undefined;
}

/** Mass of solid wire in g/m. Steel, 7850 kg/m3, unless another density is given. */
export function wireMassPerMetre(inputs: WireInputs): Calculation<Required<WireInputs>> {
  const { wireDiameterMm, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['wireDiameterMm', wireDiameterMm, bounds.wireDiameterMm],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: wireGramsPerMetre(wireDiameterMm, densityKgM3),
    unit: 'g/m',
    inputs: { wireDiameterMm, densityKgM3 },
    sources: ['geometry'],
  });
}

type DepositionInputs = WireInputs & {
  wireSpeedMMin: number;
  efficiency: number;
  /** Process number of ISO 4063, against whose published range the efficiency is held. */
  process?: string | undefined;
};

/** Metal laid in kg/h: wire fed (m/min) x mass per metre x deposition efficiency (share, 0.01 to 1). */
export function depositionRate(inputs: DepositionInputs): Calculation<DepositionInputs> {
  const { wireDiameterMm, wireSpeedMMin, efficiency, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['wireDiameterMm', wireDiameterMm, bounds.wireDiameterMm],
    ['wireSpeedMMin', wireSpeedMMin, bounds.wireSpeedMMin],
    ['efficiency', efficiency, bounds.share],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  const gramsPerMinute = wireGramsPerMetre(wireDiameterMm, densityKgM3) * wireSpeedMMin;
  return calculated({
    value: (gramsPerMinute * minutesPerHour * efficiency) / gramsPerKilogram,
    unit: 'kg/h',
    inputs: { ...inputs, densityKgM3 },
    sources: ['massBalance', 'geometry', 'efficiencyTables'],
    warnings: efficiencyWarnings(efficiency, inputs.process),
  });
}

interface WireForMetalInputs {
  massKg: number;
  efficiency: number;
  overWeldShare?: number | undefined;
}

/** Wire in kg for an amount of weld metal (kg): mass / efficiency x (1 + share laid beyond the drawing). */
export function wireForMetal(
  inputs: WireForMetalInputs,
): Calculation<Required<WireForMetalInputs>> {
  const { massKg, efficiency, overWeldShare = 0 } = inputs;
  const refusal = firstRefusal([
    ['massKg', massKg, bounds.massKg],
    ['efficiency', efficiency, bounds.share],
    ['overWeldShare', overWeldShare, bounds.extraShare],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: (massKg / efficiency) * (1 + overWeldShare),
    unit: 'kg',
    inputs: { massKg, efficiency, overWeldShare },
    sources: ['massBalance'],
    warnings: efficiencyWarnings(efficiency),
  });
}
