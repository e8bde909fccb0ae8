import type { FitLine, FitReason, FitResult } from './answer.js';

/** Inclusive limits; an open end is null. Both ends open counts as nothing stated. */
export interface Range {
  min: number | null;
  max: number | null;
}

/** Room for the last binary digit of a computed value, so that a value on the limit is inside. */
const relativeTolerance = 1e-9;

type Numeric<V extends string> = {
  variable: V;
  unit: string;
  given: number | null;
  range: Range | null;
};

function line<V extends string>(
  at: Numeric<V>,
  result: FitResult,
  reason: FitReason,
  margin: number | null,
): FitLine<V> {
  const { variable, unit, given, range } = at;
  const [min, max] = [range?.min ?? null, range?.max ?? null];
  return { variable, result, given, unit, min, max, allowed: null, margin, reason };
}

/** By so much a value may lie beyond a limit and still be on it. */
export function toleranceOf(limit: number): number {
  return relativeTolerance * Math.max(1, Math.abs(limit));
}

function distance(room: number, limit: number): number {
  return Math.abs(room) <= toleranceOf(limit) ? 0 : room;
}

function isNothing(range: Range | null): range is null {
  return range === null || (range.min === null && range.max === null);
}

/** The result alone, for comparing very many values: as `judgeNumber`, without the line. */
export function resultOfNumber(given: number | null, range: Range | null): FitResult {
  if (isNothing(range) || given === null || !Number.isFinite(given)) return 'cannotSay';
  return marginOf(given, range) >= 0 ? 'inside' : 'outside';
}

/** Distance to the nearer limit, negative outside; a distance within the tolerance is none. */
export function marginOf(given: number, { min, max }: Range): number {
  const toMin = min === null ? Infinity : distance(given - min, min);
  const toMax = max === null ? Infinity : distance(max - given, max);
  return Math.min(toMin, toMax);
}

/** One value against inclusive limits, unrounded. A value that is missing or not finite is `cannotSay`. */
export function judgeNumber<V extends string>(at: Numeric<V>): FitLine<V> {
  const { given, range } = at;
  if (isNothing(range)) return line(at, 'cannotSay', 'rangeMissing', null);
  if (given === null || !Number.isFinite(given)) {
    return line({ ...at, given: null }, 'cannotSay', 'valueMissing', null);
  }
  const margin = marginOf(given, range);
  if (margin >= 0) return line(at, 'inside', 'inRange', margin);
  const isBelow = range.min !== null && distance(given - range.min, range.min) < 0;
  return line(at, 'outside', isBelow ? 'belowMin' : 'aboveMax', margin);
}

/** Several values of one variable, all of which must lie inside; the line names the one nearest a limit. */
export function judgeNumbers<V extends string>(
  at: Omit<Numeric<V>, 'given'>,
  given: readonly number[],
): FitLine<V> {
  const lines = given.map((value) => judgeNumber({ ...at, given: value }));
  const unknown = lines.find((each) => each.result === 'cannotSay');
  const known = lines
    .filter((each) => each.margin !== null)
    .toSorted((a, b) => (a.margin ?? 0) - (b.margin ?? 0));
  const nearest = known[0];
  if (nearest?.result === 'outside') return nearest;
  return unknown ?? nearest ?? judgeNumber({ ...at, given: null });
}

type Listed<V extends string> = {
  variable: V;
  given: string | null;
  allowed: readonly string[];
};

const space = /\s/;

function plain(text: string): string {
  return (space.test(text) ? text.trim().replace(/\s+/g, ' ') : text).toUpperCase();
}

function listLine<V extends string>(
  at: Listed<V>,
  result: FitResult,
  reason: FitReason,
): FitLine<V> {
  const { variable, given, allowed } = at;
  return {
    variable,
    result,
    given,
    unit: null,
    min: null,
    max: null,
    allowed,
    margin: null,
    reason,
  };
}

/** One designation against the list of the procedure; case and spacing do not count. */
export function judgeListed<V extends string>(at: Listed<V>): FitLine<V> {
  if (at.allowed.length === 0) return listLine(at, 'cannotSay', 'rangeMissing');
  if (at.given === null || plain(at.given) === '') return listLine(at, 'cannotSay', 'valueMissing');
  const given = plain(at.given);
  return at.allowed.some((each) => plain(each) === given)
    ? listLine(at, 'inside', 'listed')
    : listLine(at, 'outside', 'notListed');
}

/**
 * Material groups of all joined parts, numbered as in ISO/TR 15608 (from memory): group 1 holds 1.1, 1.2 and so
 * on, so a listed group covers its sub-groups, and a part known by its group alone cannot be told against a
 * listed sub-group.
 */
export function judgeMaterialGroups<V extends string>(
  at: Omit<Listed<V>, 'given'>,
  given: readonly string[],
): FitLine<V> {
  const lines = given.map((group) => judgeMaterialGroup({ ...at, given: group }));
  return (
    lines.find((each) => each.result === 'outside') ??
    lines.find((each) => each.result === 'cannotSay') ??
    (lines.length > 0
      ? listLine({ ...at, given: [...new Set(given)].join(' + ') }, 'inside', 'listed')
      : judgeListed({ ...at, given: null }))
  );
}

function judgeMaterialGroup<V extends string>(at: Listed<V>): FitLine<V> {
  const exact = judgeListed(at);
  if (exact.result !== 'outside' || at.given === null) return exact;
  const given = plain(at.given);
  const allowed = at.allowed.map(plain);
  const [group] = given.split('.');
  if (given.includes('.') && group !== undefined && allowed.includes(group)) {
    return listLine(at, 'inside', 'listed');
  }
  return allowed.some((each) => each.startsWith(`${given}.`))
    ? listLine(at, 'cannotSay', 'subGroupMissing')
    : exact;
}
