import type { ArgumentRefusal, Bound } from './result.js';
import type { SourceId } from './sources/index.js';

export type { Bound } from './result.js';

/** Density of unalloyed steel in kg/m3, used unless another is given. */
export const steelDensityKgM3 = 7850;

export const minutesPerHour = 60;
export const secondsPerMinute = 60;

/** Wide bounds: they keep out the impossible, not the unusual. */
export const bounds = {
  lengthMm: { min: 0.1, max: 1_000_000, unit: 'mm' },
  sectionMm: { min: 0.1, max: 1_000, unit: 'mm' },
  areaMm2: { min: 0.001, max: 1_000_000, unit: 'mm2' },
  densityKgM3: { min: 100, max: 25_000, unit: 'kg/m3' },
  wireDiameterMm: { min: 0.1, max: 20, unit: 'mm' },
  wireSpeedMMin: { min: 0.01, max: 100, unit: 'm/min' },
  travelMmMin: { min: 0.1, max: 100_000, unit: 'mm/min' },
  share: { min: 0.01, max: 1, unit: '' },
  extraShare: { min: 0, max: 10, unit: '' },
  currentA: { min: 0.1, max: 10_000, unit: 'A' },
  voltageV: { min: 0.1, max: 1_000, unit: 'V' },
  powerW: { min: 0.1, max: 10_000_000, unit: 'W' },
  energyJ: { min: 0.1, max: 1e12, unit: 'J' },
  dutyPct: { min: 0.1, max: 100, unit: '%' },
  gasFlowLMin: { min: 0.1, max: 500, unit: 'l/min' },
  depositionKgH: { min: 0.001, max: 1_000, unit: 'kg/h' },
  partMassG: { min: 0.001, max: 1_000_000, unit: 'g' },
  massKg: { min: 0, max: 1_000_000, unit: 'kg' },
  volumeL: { min: 0, max: 100_000_000, unit: 'l' },
  waterVolumeL: { min: 0.1, max: 10_000, unit: 'l' },
  pressureBar: { min: 0, max: 1_000, unit: 'bar' },
  lossFactor: { min: 1, max: 10, unit: '' },
  durationS: { min: 0, max: 10_000_000, unit: 's' },
  positiveS: { min: 0.001, max: 10_000_000, unit: 's' },
  durationMin: { min: 0, max: 10_000_000, unit: 'min' },
  positiveMin: { min: 0.001, max: 10_000_000, unit: 'min' },
  count: { min: 1, max: 1_000_000, unit: '', whole: true },
  demand: { min: 0.001, max: 10_000_000, unit: 'parts' },
  batches: { min: 1, max: 100_000, unit: 'batches' },
} as const satisfies Record<string, Bound>;

function isAllowed(given: unknown, bound: Bound): boolean {
  return (
    typeof given === 'number' &&
    Number.isFinite(given) &&
    given >= bound.min &&
    given <= bound.max &&
    (!bound.whole || Number.isInteger(given))
  );
}

function allowedText(bound: Bound): string {
  const kind = bound.whole ? 'a whole number' : 'a number';
  return `${kind} from ${bound.min} to ${bound.max} ${bound.unit}`.trimEnd();
}

/** The first argument that is not allowed, in the order of the table; null when all are. */
export function firstRefusal(
  rows: readonly (readonly [argument: string, given: unknown, bound: Bound])[],
): ArgumentRefusal | null {
  const row = rows.find(([, given, bound]) => !isAllowed(given, bound));
  if (!row) return null;
  const [argument, given, bound] = row;
  return { argument, given, allowed: allowedText(bound) };
}

/**
 * The first argument outside the range that a method was made for; null when all are inside. Arguments that no
 * method could take are told apart by `firstRefusal`, which is asked before.
 */
export function firstOutside(
  method: SourceId,
  rows: readonly (readonly [argument: string, given: unknown, bound: Bound])[],
): ArgumentRefusal | null {
  const refusal = firstRefusal(rows);
  return refusal && { ...refusal, outsideMethod: method };
}
