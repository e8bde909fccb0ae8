import type { FitResult } from '../../answer.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type RangeRule } from '../rule.js';

/** QW-424: one P-Number joined to itself also covers that number joined to these. */
const alsoJoinedTo: Readonly<Record<string, readonly string[]>> = {
  '3': ['1'],
  '4': ['3', '1'],
  '5A': ['4', '3', '1'],
};

type Pair = readonly [string, string];

/** "P-No. 5A", "P5A" and "5A" are one number; null when it is none. */
function pNumber(text: string): string | null {
  return (
    text
      .trim()
      .toUpperCase()
      .match(/^(?:P-?\s*(?:NO\.?)?\s*)?(\d{1,2}[A-H]?)$/)?.[1] ?? null
  );
}

function covered(a: string, b: string): Pair[] {
  if (a !== b) return [[a, b]];
  return [[a, a], ...(alsoJoinedTo[a] ?? []).map((other): Pair => [a, other])];
}
const isSame = ([a, b]: Pair, [c, d]: Pair) => (a === c && b === d) || (a === d && b === c);

/** Numbers that a coupon takes part of, below its own; joining two of those to each other is not surely covered. */
function isAmongLower([a, b]: Pair, own: string): boolean {
  const lower = [own, ...(alsoJoinedTo[own] ?? [])];
  return lower.includes(a) && lower.includes(b);
}

/** Does a coupon of one pair of P-Numbers cover another pair? ASME IX, QW-424. Without toughness; else 403.5 too. */
export function coversPNumbers(pairs: { test: Pair; job: Pair }): FitResult {
  const [a, b] = pairs.test.map(pNumber);
  const [c, d] = pairs.job.map(pNumber);
  if (!a || !b || !c || !d) return 'cannotSay';
  if (covered(a, b).some((pair) => isSame(pair, [c, d]))) return 'inside';
  return a === b && isAmongLower([c, d], a) ? 'cannotSay' : 'outside';
}

const row = rowsFor<ProcedureTest>();

function couponPair({ materialGroups }: ProcedureTest): Pair | null {
  const [a, b = a] = materialGroups ?? [];
  const [first, second] = [pNumber(a ?? ''), pNumber(b ?? '')];
  return first === null || second === null ? null : [first, second];
}

const pairWords = ([a, b]: Pair) => `P${a}-P${b}`;

export const pNumbers: RangeRule<ProcedureTest> = row({
  variable: 'materialGroup',
  clause: 'QW-424.1, QW-403.5',
  confidence: 'high',
  source: 'asmeQw424',
  needs: ['materialGroups'],
  tested: (test) => {
    const pair = couponPair(test);
    return pair === null ? [] : [pairWords(pair)];
  },
  give: (test) => {
    const pair = couponPair(test);
    if (pair === null) return { cannotSay: 'a metal without P-Number covers itself only' };
    const [own, ...others] = covered(...pair).map(pairWords);
    // With toughness the Group Number counts too; the record does not hold it.
    return test.impactRequired === false
      ? { values: [own ?? '', ...others] }
      : { values: [own ?? ''], unsure: others };
  },
});
