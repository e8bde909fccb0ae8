import type { Cell, Range, Weld, Wps } from '@tackboard/contract';
import { numberWords } from '../queue/fit-words.js';

export const notStated = 'not stated';

const mechanisationWords: Readonly<Record<Cell['mechanisation'], string>> = {
  manual: 'manual',
  partlyMechanised: 'partly mechanised',
  fullyMechanised: 'fully mechanised',
  automatic: 'automatic',
};

export function mechanisationWord(mechanisation: Cell['mechanisation']): string {
  return mechanisationWords[mechanisation];
}

const stateMarks: Readonly<Record<Wps['state'], string | null>> = {
  draft: 'DRAFT, NOT FOR USE',
  approved: null,
  superseded: 'SUPERSEDED, NOT FOR USE',
  withdrawn: 'WITHDRAWN, NOT FOR USE',
};

/** What stands large on a sheet nobody may weld by; null where it may be used. */
export function markOf(state: Wps['state']): string | null {
  return stateMarks[state];
}

/** `220 A`; null where nothing is on file. */
export function amount(value: number | null | undefined, unit: string): string | null {
  return value === null || value === undefined ? null : `${numberWords(value)} ${unit}`;
}

/** `3 to 12 mm`, `at least 3 mm`, `1.2 mm`; null where the record states no limit. */
export function rangeWords(range: Range | null, unit: string): string | null {
  if (range === null) return null;
  const { min, max } = range;
  if (min !== null && min === max) return amount(min, unit);
  if (min !== null && max !== null) return `${numberWords(min)} to ${numberWords(max)} ${unit}`;
  if (min !== null) return `at least ${amount(min, unit)}`;
  return max === null ? null : `at most ${amount(max, unit)}`;
}

/** `8 x a4 x 120 mm`, as on the weld list. */
export function weldWords(weld: Weld): string {
  const { throatMm, legMm, grooveDepthMm, holeWidthMm } = weld;
  const sizes = [
    ['hole ', holeWidthMm],
    ['a', throatMm],
    ['z', legMm],
    ['s', grooveDepthMm],
  ] as const;
  const [sign, sizeMm] = sizes.find(([, valueMm]) => valueMm !== null) ?? [];
  const size = sign === undefined || !sizeMm ? weld.jointType : `${sign}${numberWords(sizeMm)}`;
  return `${weld.count} x ${size} x ${numberWords(weld.lengthMm)} mm`;
}

/** What is on file of several, with commas; null where nothing is. */
export function listed(...words: readonly (string | null | undefined)[]): string | null {
  const given = words.filter((word) => word !== null && word !== undefined && word !== '');
  return given.length === 0 ? null : given.join(', ');
}
