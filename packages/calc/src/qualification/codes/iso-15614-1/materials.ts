import type { FitResult } from '../../answer.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type RangeRule } from '../rule.js';

/** Pairs of groups a test covers, higher group first. Published in this form beside Table 5. */
const pairsCovered: Readonly<Record<string, readonly string[]>> = {
  '1-1': ['1-1'],
  '2-2': ['2-2', '2-1', '1-1'],
  '2-1': ['2-1', '1-1'],
  '3-3': ['3-3', '3-2', '3-1', '2-2', '2-1', '1-1'],
  '3-2': ['3-2', '3-1', '2-2', '2-1', '1-1'],
  '3-1': ['3-1', '2-1', '1-1'],
  '5-5': ['5-5', '5-2', '5-1'],
  '8-8': ['8-8'],
  '8-3': ['8-3', '8-2', '8-1'],
  '8-2': ['8-2', '8-1'],
  '8-1': ['8-1'],
  '10-10': ['10-10'],
  '10-8': ['10-8'],
  '11-11': ['11-11', '11-1'],
};

/** Groups that are compared by specified minimum yield. */
const byYield: ReadonlySet<string> = new Set(['1', '2', '3', '11']);
const sameOrLowerSubGroup: ReadonlySet<string> = new Set(['4', '5', '6', '8', '9']);

/** One part's material: group or sub-group of ISO/TR 15608 and lowest specified minimum yield. */
export interface GroupedMaterial {
  group: string;
  yieldMPa: number | null;
}
export type MaterialPair = readonly [GroupedMaterial, GroupedMaterial];

function mainGroup({ group }: GroupedMaterial): string {
  return group.trim().split('.')[0] ?? '';
}
function pairName(pair: MaterialPair): string {
  const [a, b] = pair.map(mainGroup);
  return Number(a) >= Number(b) ? `${a}-${b}` : `${b}-${a}`;
}

/** Whether the table of pairs lists a pair of main groups under a test on another. */
export function isCoveredPair(pairs: {
  test: readonly [string, string];
  job: readonly [string, string];
}): boolean {
  const named = ([a, b]: readonly [string, string]) =>
    pairName([
      { group: a, yieldMPa: null },
      { group: b, yieldMPa: null },
    ]);
  return pairsCovered[named(pairs.test)]?.includes(named(pairs.job)) ?? false;
}

function compareYield(test: GroupedMaterial, job: GroupedMaterial): FitResult {
  if (test.yieldMPa === null || job.yieldMPa === null) return 'cannotSay';
  return job.yieldMPa <= test.yieldMPa ? 'inside' : 'outside';
}

function compareSubGroup(test: GroupedMaterial, job: GroupedMaterial): FitResult {
  const tested = test.group.trim();
  const wanted = job.group.trim();
  if (!tested.includes('.') || !wanted.includes('.')) return 'cannotSay';
  if (tested === wanted) return 'inside';
  const isLower = Number(wanted.split('.')[1]) < Number(tested.split('.')[1]);
  return sameOrLowerSubGroup.has(mainGroup(test)) && isLower ? 'inside' : 'outside';
}

function compareParts(test: GroupedMaterial, job: GroupedMaterial): FitResult {
  const [tested, wanted] = [mainGroup(test), mainGroup(job)];
  if (byYield.has(tested) && byYield.has(wanted)) return compareYield(test, job);
  if (tested === wanted) return compareSubGroup(test, job);
  // Across the families the note names no measure; a lower yield is safe, a higher one is a question.
  return compareYield(test, job) === 'inside' ? 'inside' : 'cannotSay';
}

const order: readonly FitResult[] = ['inside', 'cannotSay', 'outside'];
const better = (a: FitResult, b: FitResult) => (order.indexOf(a) <= order.indexOf(b) ? a : b);
const worse = (a: FitResult, b: FitResult) => (order.indexOf(a) >= order.indexOf(b) ? a : b);

/** Sides that are of one group belong together; only where that leaves a choice does the better one count. */
function comparePairs(test: MaterialPair, [first, second]: MaterialPair): FitResult {
  const [straight, crossed] = (
    [
      [first, second],
      [second, first],
    ] as const
  ).map((job) => ({
    sameGroup: job.filter((part, side) => mainGroup(part) === mainGroup(test[side] ?? part)).length,
    result: worse(compareParts(test[0], job[0]), compareParts(test[1], job[1])),
  }));
  if (straight === undefined || crossed === undefined) return 'cannotSay';
  if (straight.sameGroup !== crossed.sameGroup) {
    return straight.sameGroup > crossed.sameGroup ? straight.result : crossed.result;
  }
  return better(straight.result, crossed.result);
}

/**
 * Does a test on one pair of steels cover another pair? Groups by the table of pairs, then groups 1, 2, 3 and 11 by
 * equal or lower yield, 4, 5, 6, 8 and 9 by same or lower sub-group, 7 and 10 by the same sub-group. A test pair the
 * table does not list, and group 11 under a test on group 1, cannot be told. ISO 15614-1, 8.3.1 and Table 5.
 */
export function coversMaterialPair({
  test,
  job,
}: {
  test: MaterialPair;
  job: MaterialPair;
}): FitResult {
  const covered = pairsCovered[pairName(test)];
  if (covered === undefined) return 'cannotSay';
  const wanted = pairName(job);
  if (!covered.includes(wanted)) {
    const likeGroup1 = job.map((part) =>
      mainGroup(part) === '11' ? { ...part, group: '1' } : part,
    );
    const known = job.every((part) => /^\d+$/.test(mainGroup(part)));
    const [a, b] = likeGroup1;
    if (!known || a === undefined || b === undefined) return 'cannotSay';
    return covered.includes(pairName([a, b])) ? 'cannotSay' : 'outside';
  }
  return comparePairs(test, job);
}

/** The two sides of a test piece; one group named alone is joined to itself. Null when either is missing. */
function testPair(test: Pick<ProcedureTest, 'materialGroups' | 'yieldsMPa'>): MaterialPair | null {
  const { materialGroups, yieldsMPa } = test;
  const [a, b = a] = materialGroups ?? [];
  const [yieldA = null, yieldB = yieldA] = yieldsMPa ?? [];
  if (a === undefined || b === undefined) return null;
  return [
    { group: a, yieldMPa: yieldA },
    { group: b, yieldMPa: yieldB },
  ];
}

export function isAluminium(group: string): boolean {
  return /^2[1-6](\.\d+)?$/.test(group.trim());
}

const row = rowsFor<ProcedureTest>();

/** The pairs as an examiner writes them; whether a job's pair is covered also hangs on yields and sub-groups. */
export const materialGroups: RangeRule<ProcedureTest> = row({
  variable: 'materialGroup',
  clause: '8.3.1, Table 5',
  confidence: 'high',
  source: 'iso15614Pairs',
  needs: ['materialGroups'],
  tested: (test) => {
    const pair = testPair(test);
    return pair === null ? [] : [pairName(pair)];
  },
  give: (test) => {
    const pair = testPair(test);
    const values = pair === null ? undefined : pairsCovered[pairName(pair)];
    return values === undefined
      ? { cannotSay: 'the table of pairs does not list the groups of the test piece' }
      : { values };
  },
});
