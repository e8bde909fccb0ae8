import { worstResult, type FitLine, type FitResult } from './answer.js';
import { isCoveredPair } from './codes/iso-15614-1/materials.js';
import { judgeMaterialGroups } from './range.js';

type Pair = readonly [string, string];

const group = String.raw`P?\d{1,2}[A-K]?(?:\.\d+)?`;
const pairForm = new RegExp(`^(${group})\\s*-\\s*(${group})$`, 'i');

/** "8-1" names two groups joined to each other; "P-1" and "1.2" are one. */
function pairOf(entry: string): Pair | null {
  const [, first, second] = entry.trim().match(pairForm) ?? [];
  return first === undefined || second === undefined ? null : [first, second];
}

/** The main group of ISO/TR 15608, or a P-Number; null for any other name of a steel. */
function mainOf(entry: string): string | null {
  const plain = entry.trim().toUpperCase();
  return (
    plain.match(/^(\d{1,2})(?:\.\d+)?$/)?.[1] ?? plain.match(/^P-?\s?\d{1,2}[A-K]?$/)?.[0] ?? null
  );
}

/**
 * Groups that no single test covers in all their pairs: 8 and 1 stand on a record for 8 joined to 1, and hold neither
 * 8 joined to 8 nor 1 joined to 1.
 */
function isMixed(singles: readonly string[]): boolean {
  const [first = ''] = singles;
  const main = first.split('.')[0] ?? '';
  // Most lists name one group.
  if (singles.every((each) => each === main || each.startsWith(`${main}.`))) return false;
  const mains = [...new Set(singles.map(mainOf))].filter((main) => main !== null);
  if (mains.length < 2) return false;
  const highest = mains.reduce((a, b) => (Number(b) > Number(a) ? b : a));
  return mains.some((a) =>
    mains.some((b) => !isCoveredPair({ test: [highest, highest], job: [a, b] })),
  );
}

function pairsAmong(given: readonly string[]): Pair[] {
  const [only] = given;
  if (given.length === 1 && only !== undefined) return [[only, only]];
  return given.flatMap((a, at) => given.slice(at + 1).map((b): Pair => [a, b]));
}

const order: readonly FitResult[] = ['inside', 'cannotSay', 'outside'];
const best = (results: readonly FitResult[]) =>
  order.find((result) => results.includes(result)) ?? 'outside';

function holdsPair([a, b]: Pair, [c, d]: Pair): FitResult {
  const part = (given: string, side: string) =>
    judgeMaterialGroups({ variable: 'materialGroup', allowed: [side] }, [given]).result;
  return best([worstResult([part(a, c), part(b, d)]), worstResult([part(a, d), part(b, c)])]);
}

function pairsIn(allowed: readonly string[]): Pair[] {
  const joined = allowed.filter((entry) => entry.includes('-'));
  return joined.map(pairOf).filter((pair) => pair !== null);
}

/** Groups listed alone. */
function judgeSingles<V extends string>(
  at: { variable: V; allowed: readonly string[] },
  given: readonly string[],
): FitLine<V> {
  const line = judgeMaterialGroups(at, given);
  return line.result === 'inside' && isMixed(at.allowed)
    ? { ...line, result: 'cannotSay', reason: 'pairMissing' }
    : line;
}

/** Every pair that a list of groups and pairs names, each group joined to itself and to the others beside it. */
export function pairsNamed(listed: readonly string[]): (readonly [string, string])[] {
  const singles = listed.filter((entry) => pairOf(entry) === null);
  return [
    ...pairsIn(listed),
    ...singles.flatMap((a, at) => singles.slice(at).map((b): Pair => [a, b])),
  ];
}

/**
 * The materials of all joined parts against the groups that a procedure lists, as they are joined. A pair ("8-1")
 * holds its two groups joined to each other, in either order, and nothing else. Groups listed alone hold each other in
 * every pair where one test could cover all of these; where none could, the list does not say which pairs it means.
 * Groups as in ISO 15614-1, 8.3.1 and Table 5; P-Numbers as in ASME IX, QW-424.
 */
export function judgeJoinedGroups<V extends string>(
  at: { variable: V; allowed: readonly string[] },
  given: readonly string[],
): FitLine<V> {
  const blank = given.find((each) => each.trim() === '');
  if (given.length === 0 || blank !== undefined) {
    return judgeMaterialGroups(at, blank === undefined ? [] : [blank]);
  }
  const pairs = pairsIn(at.allowed);
  if (pairs.length === 0) return judgeSingles(at, given);
  const singles = at.allowed.filter((entry) => pairOf(entry) === null);
  const results = pairsAmong(given).map((wanted) => {
    const ofPairs = pairs.map((pair) => holdsPair(wanted, pair));
    if (singles.length === 0) return best(ofPairs);
    return best([...ofPairs, judgeSingles({ ...at, allowed: singles }, wanted).result]);
  });
  const result = worstResult(results);
  const reason = { inside: 'listed', outside: 'notListed', cannotSay: 'subGroupMissing' } as const;
  const joined = [...new Set(given)].join(' + ');
  return { ...judgeMaterialGroups(at, given), given: joined, result, reason: reason[result] };
}
