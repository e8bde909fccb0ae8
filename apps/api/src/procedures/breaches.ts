import type { Wps, WpsRanges } from '@tackboard/contract';
import {
  holdsGroup,
  holdsWord,
  isStated,
  listVariables,
  listWords,
  nothingStated,
  plainWord,
  rangeVariables,
  rangeWords,
  type Limits,
  type ListVariable,
  type RangeVariable,
} from './range-words.js';

type Breach = Wps['breaches'][number];

export interface SupportingRecord {
  readonly number: string;
  readonly ranges: WpsRanges;
}

/** One variable of the procedure, as words and as the question whether a record holds it whole. */
interface Check {
  readonly variable: string;
  readonly wps: string;
  readonly allowed: (record: WpsRanges) => string;
  readonly holds: (record: WpsRanges) => boolean;
}

/**
 * Where a procedure goes beyond every record that supports it. A variable is held when one record holds all of it:
 * two records never add up to a wider range. Only records of the same process count. The ranges of a record are
 * those QA typed from the signed sheet; where it says nothing on a variable there is nothing to go beyond, except
 * for the variables without which no procedure is qualified.
 */
export function breachesOf(wps: WpsRanges, records: readonly SupportingRecord[]): Breach[] {
  const sameProcess = records.filter(
    ({ ranges }) => plainWord(ranges.process) === plainWord(wps.process),
  );
  const [process, ...others] = checksOf(wps);
  if (process === undefined) return [];
  if (sameProcess.length === 0) return records.length === 0 ? [] : [breachOf(process, records)];
  return others
    .filter((check) => !sameProcess.some(({ ranges }) => check.holds(ranges)))
    .map((check) => breachOf(check, sameProcess));
}

function breachOf(check: Check, records: readonly SupportingRecord[]): Breach {
  const [only] = records;
  return {
    variable: check.variable,
    wpqrNumber: records.map(({ number }) => number).join(', '),
    wps: check.wps,
    allowed:
      records.length === 1 && only !== undefined
        ? check.allowed(only.ranges)
        : records.map(({ number, ranges }) => `${number}: ${check.allowed(ranges)}`).join('; '),
  };
}

function checksOf(wps: WpsRanges): Check[] {
  const throatMatters = wps.throatMm !== null || holdsWord(wps.jointTypes, 'fillet');
  return [
    {
      variable: 'process',
      wps: wps.process,
      allowed: (record) => record.process,
      holds: (record) => plainWord(record.process) === plainWord(wps.process),
    },
    listCheck('mechanisations', wps, true),
    listCheck('materialGroups', wps, true),
    listCheck('jointTypes', wps, false),
    listCheck('positions', wps, true),
    listCheck('fillers', wps, false),
    listCheck('gases', wps, false),
    rangeCheck('thicknessMm', wps, true),
    ...(throatMatters ? [rangeCheck('throatMm', wps, true)] : []),
    ...(['wireDiameterMm', 'currentA', 'voltageV', 'wireSpeedMMin', 'travelMmMin'] as const).map(
      (variable) => rangeCheck(variable, wps, false),
    ),
    heatInputCheck(wps),
    preheatCheck(wps),
    interpassCheck(wps),
  ];
}

function listCheck(variable: ListVariable, wps: WpsRanges, mustBeStated: boolean): Check {
  const given: readonly string[] = wps[variable];
  const held = variable === 'materialGroups' ? holdsGroup : holdsWord;
  return {
    variable: listVariables[variable],
    wps: listWords(given),
    allowed: (record) => listWords(record[variable]),
    holds: (record) => {
      const listed: readonly string[] = record[variable];
      if (mustBeStated && (given.length === 0 || listed.length === 0)) return false;
      return listed.length === 0 || given.every((each) => held(listed, each));
    },
  };
}

function rangeCheck(variable: RangeVariable, wps: WpsRanges, mustBeStated: boolean): Check {
  const given = wps[variable];
  const { word, unit } = rangeVariables[variable];
  return {
    variable: word,
    wps: rangeWords(given, unit),
    allowed: (record) => rangeWords(record[variable], unit),
    holds: (record) => {
      const limits = record[variable];
      if (mustBeStated && (!isStated(given) || !isStated(limits))) return false;
      return !isStated(given) || !isStated(limits) || liesWithin(given, limits);
    },
  };
}

/** Limits are inclusive; an open end lies within an open end only. */
function liesWithin(inner: Limits, outer: Limits): boolean {
  const above = outer.min === null || (inner.min !== null && inner.min >= outer.min);
  const below = outer.max === null || (inner.max !== null && inner.max <= outer.max);
  return above && below;
}

const basisWords = { heatInput: 'heat input', arcEnergy: 'arc energy' } as const;

/** A limit of arc energy and one of heat input differ by the factor k of the process; they are not compared. */
function heatInputCheck(wps: WpsRanges): Check {
  const plain = rangeCheck('heatInputKjMm', wps, false);
  const words = (of: WpsRanges, range: string) =>
    range === nothingStated ? range : `${range} as ${basisWords[of.heatInputBasis]}`;
  return {
    ...plain,
    wps: words(wps, plain.wps),
    allowed: (record) => words(record, plain.allowed(record)),
    holds: (record) =>
      isStated(wps.heatInputKjMm) && isStated(record.heatInputKjMm)
        ? record.heatInputBasis === wps.heatInputBasis && plain.holds(record)
        : plain.holds(record),
  };
}

function preheatCheck(wps: WpsRanges): Check {
  const words = (of: WpsRanges) => rangeWords({ min: of.preheatMinC, max: null }, 'degC');
  return {
    variable: 'preheat',
    wps: words(wps),
    allowed: words,
    holds: ({ preheatMinC }) =>
      preheatMinC === null || (wps.preheatMinC !== null && wps.preheatMinC >= preheatMinC),
  };
}

function interpassCheck(wps: WpsRanges): Check {
  const words = (of: WpsRanges) => rangeWords({ min: null, max: of.interpassMaxC }, 'degC');
  return {
    variable: 'interpass temperature',
    wps: words(wps),
    allowed: words,
    holds: ({ interpassMaxC }) =>
      interpassMaxC === null || (wps.interpassMaxC !== null && wps.interpassMaxC <= interpassMaxC),
  };
}
