import { familyNamed, familyOf, codeIdOf } from '../codes/code-names.js';
import type { WpsRanges } from '../fit.js';
import { judgeJoinedGroups, pairsNamed } from '../joined-groups.js';
import type { Range } from '../range.js';

/** A test record with its code and the ranges printed on it. */
export interface SupportingWpqr {
  number: string;
  code: string;
  edition: string | null;
  ranges: WpsRanges;
}

type Listed =
  'mechanisations' | 'materialGroups' | 'jointTypes' | 'positions' | 'fillers' | 'gases';
type Ranged =
  | 'yieldMPa'
  | 'thicknessMm'
  | 'throatMm'
  | 'wireDiameterMm'
  | 'currentA'
  | 'voltageV'
  | 'wireSpeedMMin'
  | 'travelMmMin'
  | 'heatInputKjMm';
export type BreachVariable =
  Listed | Ranged | 'code' | 'process' | 'heatInputBasis' | 'preheatMinC' | 'interpassMaxC';

export type Stated = Range | readonly string[] | number | string | null;

/** One variable in which the procedure goes beyond every record, or on which no record says enough. */
export interface WpsBreach {
  variable: BreachVariable;
  /** `beyond` names a breach; `silent` says that a variable no procedure can do without is not stated. */
  kind: 'beyond' | 'silent';
  wps: Stated;
  /** What each record of the process allows. */
  allowed: readonly { wpqr: string; stated: Stated }[];
}

const plain = (text: string) => text.trim().replace(/\s+/g, ' ').toUpperCase();

function holdsWord(listed: readonly string[], word: string): boolean {
  return listed.map(plain).includes(plain(word));
}

/** Every pair of groups that the procedure names is to be one that the record holds. */
function heldGroups(wps: readonly string[], allowed: readonly string[]): Held {
  const lines = pairsNamed(wps).map((pair) =>
    judgeJoinedGroups({ variable: 'materialGroup', allowed }, pair),
  );
  const missed = lines.filter(({ result }) => result !== 'inside');
  if (missed.length === 0) return 'held';
  return missed.every(({ reason }) => reason === 'pairMissing') ? 'silent' : 'beyond';
}

const isStated = (range: Range | null): range is Range =>
  range !== null && (range.min !== null || range.max !== null);

/** Limits are inclusive; an open end lies within an open end only. */
function liesWithin(inner: Range, outer: Range): boolean {
  const above = outer.min === null || (inner.min !== null && inner.min >= outer.min);
  return above && (outer.max === null || (inner.max !== null && inner.max <= outer.max));
}

type Held = 'held' | 'beyond' | 'silent';
interface Check {
  variable: BreachVariable;
  stated: (ranges: WpsRanges) => Stated;
  held: (wps: WpsRanges, record: WpsRanges) => Held;
}

function listCheck(variable: Listed, isNeeded: boolean): Check {
  return {
    variable,
    stated: (ranges) => ranges[variable],
    held: (wps, record) => {
      const [given, listed] = [wps[variable], record[variable]];
      if (given.length === 0 || listed.length === 0) return isNeeded ? 'silent' : 'held';
      if (variable === 'materialGroups') return heldGroups(given, listed);
      return given.every((each) => holdsWord(listed, each)) ? 'held' : 'beyond';
    },
  };
}

function rangeCheck(variable: Ranged, isNeeded: (wps: WpsRanges) => boolean): Check {
  return {
    variable,
    stated: (ranges) => ranges[variable] ?? null,
    held: (wps, record) => {
      const [given, limits] = [wps[variable] ?? null, record[variable] ?? null];
      if (!isStated(given) || !isStated(limits)) return isNeeded(wps) ? 'silent' : 'held';
      return liesWithin(given, limits) ? 'held' : 'beyond';
    },
  };
}

const never = () => false;
const throatMatters = (wps: WpsRanges) =>
  isStated(wps.throatMm) || holdsWord(wps.jointTypes, 'fillet');

const checks: readonly Check[] = [
  listCheck('mechanisations', true),
  listCheck('materialGroups', true),
  listCheck('jointTypes', false),
  listCheck('positions', true),
  listCheck('fillers', false),
  listCheck('gases', false),
  {
    ...rangeCheck('yieldMPa', never),
    // A record that ends at a yield says so on: silent about it, the procedure would go beyond.
    held: (wps, record) => {
      const limits = record.yieldMPa ?? null;
      if (!isStated(limits)) return 'held';
      const given = wps.yieldMPa ?? null;
      return isStated(given) && liesWithin(given, limits) ? 'held' : 'beyond';
    },
  },
  rangeCheck('thicknessMm', () => true),
  rangeCheck('throatMm', throatMatters),
  ...(['wireDiameterMm', 'currentA', 'voltageV', 'wireSpeedMMin', 'travelMmMin'] as const).map(
    (variable) => rangeCheck(variable, never),
  ),
  {
    // A limit of arc energy and one of heat input differ by a factor; they are not compared.
    variable: 'heatInputBasis',
    stated: (ranges) => (isStated(ranges.heatInputKjMm) ? ranges.heatInputBasis : null),
    held: (wps, record) => {
      const isCompared = isStated(wps.heatInputKjMm) && isStated(record.heatInputKjMm);
      return isCompared && wps.heatInputBasis !== record.heatInputBasis ? 'beyond' : 'held';
    },
  },
  {
    ...rangeCheck('heatInputKjMm', never),
    held: (wps, record) =>
      wps.heatInputBasis === record.heatInputBasis
        ? rangeCheck('heatInputKjMm', never).held(wps, record)
        : 'held',
  },
  {
    variable: 'preheatMinC',
    stated: (ranges) => ranges.preheatMinC,
    held: ({ preheatMinC: given }, { preheatMinC: least }) =>
      least === null || (given !== null && given >= least) ? 'held' : 'beyond',
  },
  {
    variable: 'interpassMaxC',
    stated: (ranges) => ranges.interpassMaxC,
    held: ({ interpassMaxC: given }, { interpassMaxC: most }) =>
      most === null || (given !== null && given <= most) ? 'held' : 'beyond',
  },
];

function sameCode(wpsCode: string, { code }: SupportingWpqr): boolean {
  const [wanted, own] = [familyNamed(wpsCode), codeIdOf(code)];
  return wanted !== null && own !== null && familyOf(own) === wanted;
}

/**
 * Where a procedure goes beyond every record that supports it, by the ranges printed on the records. One record has
 * to hold a variable whole, and one has to hold them together: two never add up to a wider range. Joint and throat
 * may rest on another record than the rest. Only records of the same code family and process
 * count. Without any record there is nothing to compare, which is itself a breach of `code`.
 */
export function wpsBreaches(facts: {
  code: string;
  wps: WpsRanges;
  wpqrs: readonly SupportingWpqr[];
}): WpsBreach[] {
  const { code, wps, wpqrs } = facts;
  const ofCode = wpqrs.filter((wpqr) => sameCode(code, wpqr));
  if (ofCode.length === 0) {
    const allowed = wpqrs.map((wpqr) => ({ wpqr: wpqr.number, stated: wpqr.code }));
    return [
      { variable: 'code', kind: wpqrs.length === 0 ? 'silent' : 'beyond', wps: code, allowed },
    ];
  }
  const ofProcess = ofCode.filter(({ ranges }) => plain(ranges.process) === plain(wps.process));
  if (ofProcess.length === 0) {
    const allowed = ofCode.map(({ number, ranges }) => ({ wpqr: number, stated: ranges.process }));
    return [{ variable: 'process', kind: 'beyond', wps: wps.process, allowed }];
  }
  const breaches = checks.flatMap((check) => breachOf(check, wps, ofProcess));
  return breaches.length > 0 ? breaches : mixed(wps, ofProcess);
}

/** The breach of one variable that none of the records holds. */
function breachOf(
  { variable, stated, held }: Check,
  wps: WpsRanges,
  records: readonly SupportingWpqr[],
): WpsBreach[] {
  const answers = records.map(({ ranges }) => held(wps, ranges));
  if (answers.includes('held')) return [];
  const kind = answers.includes('beyond') ? 'beyond' : 'silent';
  const allowed = records.map(({ number, ranges }) => ({ wpqr: number, stated: stated(ranges) }));
  return [{ variable, kind, wps: stated(wps), allowed }];
}

/** A fillet test may stand beside a butt test for these; all else was welded together or was not tested. */
const besides: ReadonlySet<BreachVariable> = new Set(['jointTypes', 'throatMm']);

/** Where each variable is held by some record but no record holds them together: what the nearest one misses. */
function mixed(wps: WpsRanges, records: readonly SupportingWpqr[]): WpsBreach[] {
  const together = checks.filter(({ variable }) => !besides.has(variable));
  const [nearest] = records
    .map((record) => together.flatMap((check) => breachOf(check, wps, [record])))
    .toSorted((a, b) => a.length - b.length);
  return nearest ?? [];
}
