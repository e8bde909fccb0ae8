import { bounds, firstRefusal, secondsPerMinute } from '../quantities.js';
import {
  calculated,
  refused,
  type Calculation,
  type CalculationInParts,
  type Refused,
} from '../result.js';

const wattsPerKilowatt = 1000;

/** Factor k relative to submerged arc = 1, by process number of ISO 4063. Source: EN 1011-1:2009, Table 1. */
const kByProcess: Readonly<Record<string, number>> = {
  '111': 0.8,
  '114': 0.8,
  '121': 1,
  '131': 0.8,
  '135': 0.8,
  '136': 0.8,
  '137': 0.8,
  '138': 0.8,
  '139': 0.8,
  '141': 0.6,
  '15': 0.6,
};

/** The factor k of a process, or null where the table names none. */
export function kFactor(process: string): number | null {
  const key = String(process).trim();
  return Object.hasOwn(kByProcess, key) ? (kByProcess[key] ?? null) : null;
}

export interface ArcInputs {
  currentA: number;
  voltageV: number;
  travelMmMin: number;
  /** The source shapes its waveform, so that mean current times mean voltage is not the mean power. */
  pulsed?: boolean | undefined;
}

function arcRefusal(inputs: ArcInputs) {
  return firstRefusal([
    ['currentA', inputs.currentA, bounds.currentA],
    ['voltageV', inputs.voltageV, bounds.voltageV],
    ['travelMmMin', inputs.travelMmMin, bounds.travelMmMin],
  ]);
}

function energyKjMm({ currentA, voltageV, travelMmMin }: ArcInputs): number {
  return (currentA * voltageV * secondsPerMinute) / (wattsPerKilowatt * travelMmMin);
}

function pulseWarnings(inputs: ArcInputs) {
  return inputs.pulsed ? [{ code: 'meanPowerOfPulsedArc', given: null } as const] : [];
}

/**
 * Arc energy in kJ/mm from mean current (A), voltage (V) and travel speed (mm/min): 60 U I / (1000 v).
 * Source: EN 1011-1 and ISO/TR 18491, method A. Some codes call this figure heat input.
 */
export function arcEnergy(inputs: ArcInputs): Calculation<ArcInputs> {
  const refusal = arcRefusal(inputs);
  if (refusal) return refused(refusal);
  return calculated({
    value: energyKjMm(inputs),
    unit: 'kJ/mm',
    inputs,
    sources: ['en1011', 'isoTr18491'],
    warnings: pulseWarnings(inputs),
  });
}

export type HeatInputs = ArcInputs & { process: string };

/** Heat input in kJ/mm: k times arc energy, k by ISO 4063 process number. Refuses a process without a factor. */
export function heatInput(inputs: HeatInputs): Calculation<HeatInputs> {
  const refusal = arcRefusal(inputs);
  if (refusal) return refused(refusal);
  const k = kFactor(inputs.process);
  if (k === null) return noFactor(inputs.process);
  return calculated({
    value: k * energyKjMm(inputs),
    unit: 'kJ/mm',
    inputs,
    sources: ['en1011'],
    warnings: pulseWarnings(inputs),
  });
}

function noFactor(process: string): Refused {
  const allowed = `a process with a factor k: ${Object.keys(kByProcess).join(', ')}`;
  return refused({ argument: 'process', given: process, allowed });
}

interface FromArcInputs {
  /** From mean values, from the source's own power, or from its own energy. */
  arcEnergyKjMm: number;
  process: string;
}

/**
 * Heat input in kJ/mm from an arc energy however it was found: k times arc energy. What is a heat input already
 * must not go through here again. Refuses a process without a factor.
 */
export function heatInputFromArcEnergy(
  inputs: FromArcInputs,
): CalculationInParts<FromArcInputs, { k: number }> {
  const { arcEnergyKjMm, process } = inputs;
  const refusal = firstRefusal([
    ['arcEnergyKjMm', arcEnergyKjMm, { min: 0.0001, max: 1_000, unit: 'kJ/mm' }],
  ]);
  if (refusal) return refused(refusal);
  const k = kFactor(process);
  if (k === null) return noFactor(process);
  return {
    ...calculated({ value: k * arcEnergyKjMm, unit: 'kJ/mm', inputs, sources: ['en1011'] }),
    parts: { k },
  };
}

interface PowerInputs {
  powerW: number;
  travelMmMin: number;
}

/** Arc energy in kJ/mm from the mean instantaneous power (W) that the source shows. ISO/TR 18491, method C. */
export function arcEnergyFromPower(inputs: PowerInputs): Calculation<PowerInputs> {
  const refusal = firstRefusal([
    ['powerW', inputs.powerW, bounds.powerW],
    ['travelMmMin', inputs.travelMmMin, bounds.travelMmMin],
  ]);
  if (refusal) return refused(refusal);
  const value = (inputs.powerW * secondsPerMinute) / (wattsPerKilowatt * inputs.travelMmMin);
  return calculated({ value, unit: 'kJ/mm', inputs, sources: ['isoTr18491'] });
}

interface EnergyInputs {
  energyJ: number;
  lengthMm: number;
}

/** Arc energy in kJ/mm from the energy (J) counted over a length (mm) of weld. ISO/TR 18491, method B. */
export function arcEnergyFromEnergy(inputs: EnergyInputs): Calculation<EnergyInputs> {
  const refusal = firstRefusal([
    ['energyJ', inputs.energyJ, bounds.energyJ],
    ['lengthMm', inputs.lengthMm, bounds.lengthMm],
  ]);
  if (refusal) return refused(refusal);
  const value = inputs.energyJ / (wattsPerKilowatt * inputs.lengthMm);
  return calculated({ value, unit: 'kJ/mm', inputs, sources: ['isoTr18491'] });
}
