import { wpsBreaches, type BreachVariable, type Stated } from '@tackboard/calc';
import type { Wps, WpsRanges } from '@tackboard/contract';
import {
  listVariables,
  listWords,
  nothingStated,
  rangeVariables,
  rangeWords,
} from './range-words.js';

type Breach = Wps['breaches'][number];

export interface SupportingRecord {
  readonly number: string;
  readonly code: string;
  readonly edition: string;
  readonly ranges: WpsRanges;
}

const words: Readonly<Record<BreachVariable, { word: string; unit: string }>> = {
  ...rangeVariables,
  ...{ code: plain('code'), process: plain('process'), heatInputBasis: plain('heat counted as') },
  mechanisations: plain(listVariables.mechanisations),
  materialGroups: plain(listVariables.materialGroups),
  jointTypes: plain(listVariables.jointTypes),
  positions: plain(listVariables.positions),
  fillers: plain(listVariables.fillers),
  gases: plain(listVariables.gases),
  preheatMinC: { word: 'preheat', unit: '°C' },
  interpassMaxC: { word: 'interpass temperature', unit: '°C' },
};

function plain(word: string) {
  return { word, unit: '' };
}

/**
 * Where a procedure goes beyond every record that supports it, in words. The ranges of a record are those QA typed
 * from the signed sheet. A procedure without a record has nothing to be compared with.
 */
export function breachesOf(
  wps: { code: string; ranges: WpsRanges },
  records: readonly SupportingRecord[],
): Breach[] {
  if (records.length === 0) return [];
  const found = wpsBreaches({ code: wps.code, wps: wps.ranges, wpqrs: records });
  return found.map(({ variable, wps: stated, allowed }) => ({
    variable: words[variable].word,
    wpqrNumber: allowed.map(({ wpqr }) => wpqr).join(', '),
    wps: statedWords(variable, stated),
    allowed: allowedWords(variable, allowed),
  }));
}

function allowedWords(
  variable: BreachVariable,
  allowed: readonly { wpqr: string; stated: Stated }[],
): string {
  const [only] = allowed;
  if (allowed.length === 1 && only !== undefined) return statedWords(variable, only.stated);
  return allowed.map(({ wpqr, stated }) => `${wpqr}: ${statedWords(variable, stated)}`).join('; ');
}

const basisWords: Readonly<Record<string, string>> = {
  heatInput: 'heat input',
  arcEnergy: 'arc energy',
};

function statedWords(variable: BreachVariable, stated: Stated): string {
  const { unit } = words[variable];
  if (stated === null) return nothingStated;
  if (variable === 'preheatMinC') return `${String(stated)} ${unit} and more`;
  if (variable === 'interpassMaxC') return `up to ${String(stated)} ${unit}`;
  if (typeof stated === 'string') return basisWords[stated] ?? stated;
  if (typeof stated === 'number') return `${stated} ${unit}`;
  return isRange(stated) ? rangeWords(stated, unit) : listWords(stated);
}

function isRange(
  stated: Exclude<Stated, string | number | null>,
): stated is Extract<Stated, { min: number | null }> {
  return !Array.isArray(stated);
}
