import { bounds, firstRefusal, minutesPerHour, steelDensityKgM3 } from '../quantities.js';
import {
  calculated,
  refused,
  type Calculation,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { wireProcess, within } from './process-table.js';
import { wireGramsPerMetre } from './wire.js';

const gramsPerKilogram = 1000;
const secondsPerHour = 3600;
const massG = { min: 0, max: 1_000_000, unit: 'g' };

interface BandInputs {
  /** Process number of ISO 4063. */
  process: string;
  wireDiameterMm: number;
  wireSpeedMMin: number;
  densityKgM3?: number | undefined;
}

interface BandParts {
  meltedKgH: number;
  lowestKgH: number;
  highestKgH: number;
  lowestEfficiency: number;
  highestEfficiency: number;
}

/**
 * Metal laid in kg/h at the middle of a process's published efficiency range; `parts` has both ends and the
 * wire melted. Warns outside the process's published rates. Refuses a process without a range, or without a
 * wire. Sources: handbook tables of efficiency; Job Knowledge 97 for rates.
 */
export function depositionBand(
  inputs: BandInputs,
): CalculationInParts<Required<BandInputs>, BandParts> {
  const { process, wireDiameterMm, wireSpeedMMin, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['wireDiameterMm', wireDiameterMm, bounds.wireDiameterMm],
    ['wireSpeedMMin', wireSpeedMMin, bounds.wireSpeedMMin],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  const found = wireProcess(process);
  if (!found.ok) return found;
  const { min, max } = found.row.efficiency;
  const melted = meltedKgH(wireGramsPerMetre(wireDiameterMm, densityKgM3), wireSpeedMMin);
  const value = (melted * (min + max)) / 2;
  const usual = found.row.depositionKgH;
  const warnings: Warning[] =
    usual && !within(value, usual) ? [{ code: 'depositionUnusual', given: value }] : [];
  return {
    ...calculated({
      value,
      unit: 'kg/h',
      inputs: { process, wireDiameterMm, wireSpeedMMin, densityKgM3 },
      sources: ['massBalance', 'efficiencyTables', 'depositionRanges'],
      warnings,
    }),
    parts: {
      meltedKgH: melted,
      ...{ lowestKgH: melted * min, highestKgH: melted * max },
      ...{ lowestEfficiency: min, highestEfficiency: max },
    },
  };
}

function meltedKgH(gramsPerMetre: number, wireSpeedMMin: number): number {
  return (gramsPerMetre * wireSpeedMMin * minutesPerHour) / gramsPerKilogram;
}

interface MeltInputs {
  /** From the data sheet: a cored wire weighs less than a solid one of its diameter. */
  wireGM: number;
  wireSpeedMMin: number;
}

/** Wire melted in kg/h from its mass per metre (g/m) and its speed (m/min). */
export function meltOffRate(inputs: MeltInputs): Calculation<MeltInputs> {
  const refusal = firstRefusal([
    ['wireGM', inputs.wireGM, { min: 0.01, max: 2_000, unit: 'g/m' }],
    ['wireSpeedMMin', inputs.wireSpeedMMin, bounds.wireSpeedMMin],
  ]);
  if (refusal) return refused(refusal);
  const value = meltedKgH(inputs.wireGM, inputs.wireSpeedMMin);
  return calculated({ value, unit: 'kg/h', inputs, sources: ['massBalance'] });
}

interface WeighingInputs {
  beforeG: number;
  afterG: number;
  arcS: number;
}

/** Metal laid in kg/h from weighing a plate before and after a timed weld. Refuses a plate that lost mass. */
export function depositionFromWeighing(inputs: WeighingInputs): Calculation<WeighingInputs> {
  const { beforeG, afterG, arcS } = inputs;
  const refusal = firstRefusal([
    ['beforeG', beforeG, massG],
    ['afterG', afterG, { ...massG, min: beforeG }],
    ['arcS', arcS, { min: 1, max: bounds.durationS.max, unit: 's' }],
  ]);
  if (refusal) return refused(refusal);
  const value = ((afterG - beforeG) / arcS) * (secondsPerHour / gramsPerKilogram);
  return calculated({ value, unit: 'kg/h', inputs, sources: ['massBalance'] });
}

interface MeasuredInputs {
  laidKg: number;
  meltedKg: number;
}

/** Deposition efficiency as a share: metal laid over wire melted, both weighed. Refuses more laid than melted. */
export function measuredEfficiency(inputs: MeasuredInputs): Calculation<MeasuredInputs> {
  const { laidKg, meltedKg } = inputs;
  const melted = { min: 0.001, max: bounds.massKg.max, unit: 'kg' };
  const refusal =
    firstRefusal([['meltedKg', meltedKg, melted]]) ??
    firstRefusal([['laidKg', laidKg, { ...melted, max: meltedKg }]]);
  if (refusal) return refused(refusal);
  return calculated({ value: laidKg / meltedKg, unit: '1', inputs, sources: ['massBalance'] });
}

/** Length in m of a kilogram of solid wire. Steel, 7850 kg/m3, unless another density is given. */
export function wireLengthPerKg(inputs: {
  wireDiameterMm: number;
  densityKgM3?: number | undefined;
}): Calculation<{ wireDiameterMm: number; densityKgM3: number }> {
  const { wireDiameterMm, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['wireDiameterMm', wireDiameterMm, bounds.wireDiameterMm],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: gramsPerKilogram / wireGramsPerMetre(wireDiameterMm, densityKgM3),
    unit: 'm/kg',
    inputs: { wireDiameterMm, densityKgM3 },
    sources: ['geometry'],
  });
}
