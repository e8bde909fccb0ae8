import type { Wpqr, WpsInUse } from '@tackboard/contract';
import type { RangeKey } from './ranges-draft.js';

type Limits = { readonly min: number | null; readonly max: number | null };

const known = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
const once = (values: readonly (number | null)[]) => [...new Set(known(values))];

/** What is set and what was read for one variable, each value once or oldest first; thickness is never dialled. */
export function pointsInUse(
  inUse: WpsInUse | null,
  key: RangeKey,
): { readonly sets: number[]; readonly readings: number[] } {
  if (inUse === null) return { sets: [], readings: [] };
  switch (key) {
    case 'currentA':
    case 'voltageV':
    case 'wireSpeedMMin':
    case 'travelMmMin':
      return {
        sets: once(inUse.setUps.map((setUp) => setUp[key])),
        readings: known(inUse.readings.map((reading) => reading[key])).reverse(),
      };
    case 'wireDiameterMm':
      return { sets: once(inUse.setUps.map((setUp) => setUp[key])), readings: [] };
    default:
      return { sets: [], readings: [] };
  }
}

/** From the lowest to the highest limit of the records behind a procedure; null where none states one. */
export function bandOfRecords(
  records: readonly Pick<Wpqr, 'ranges'>[],
  key: RangeKey,
): Limits | null {
  const stated = records.map(({ ranges }) => ranges[key] ?? null).filter((range) => range !== null);
  if (stated.length === 0) return null;
  const least = stated.map(({ min }) => min);
  const most = stated.map(({ max }) => max);
  return {
    min: least.includes(null) ? null : Math.min(...known(least)),
    max: most.includes(null) ? null : Math.max(...known(most)),
  };
}
