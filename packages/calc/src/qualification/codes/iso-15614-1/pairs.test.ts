import { describe, expect, it } from 'vitest';
import { procedureTest, suggestedFor, suggestProcedureRanges } from '../index.js';
import { coversMaterialPair, isAluminium } from './materials.js';

/** ISO/TR 15608 groups; none is told by a yield here, so that "cannotSay" means: in the table. */
const groups = ['1', '2', '3', '5', '8', '10', '11'];
const every = groups.flatMap((a, at) => groups.slice(0, at + 1).map((b) => [a, b] as const));
const bare = (group: string) => ({ group, yieldMPa: null });
const strong = (group: string, yieldMPa: number) => ({ group, yieldMPa });

/** The table of pairs as ped-online.com prints it beside Table 5; groups 10 and 11 from memory. */
const printed = {
  '1-1': '1-1',
  '2-1': '2-1, 1-1',
  '2-2': '2-2, 2-1, 1-1',
  '3-1': '3-1, 2-1, 1-1',
  '3-2': '3-2, 3-1, 2-2, 2-1, 1-1',
  '3-3': '3-3, 3-2, 3-1, 2-2, 2-1, 1-1',
  '5-5': '5-5, 5-2, 5-1',
  '8-1': '8-1',
  '8-2': '8-2, 8-1',
  '8-3': '8-3, 8-2, 8-1',
  '8-8': '8-8',
  '10-8': '10-8',
  '10-10': '10-10',
  '11-11': '11-11, 11-1',
};

describe('printed: the pairs of groups that a test covers (ped-online.com, table of pairs)', () => {
  it.each(Object.entries(printed))('%s covers %s', (test, covered) => {
    const [a = '', b = ''] = test.split('-');
    for (const pair of [`${a}.1 ${b}.1`, `${b}.1 ${a}.1`]) {
      const suggested = suggestedFor(
        suggestProcedureRanges(
          procedureTest({
            ...{ code: 'ISO 15614-1', edition: '2017', level: '2', jointType: 'butt' },
            ...{ materialGroups: pair.split(' '), yieldsMPa: [355, 355] },
          }),
        ),
        'materialGroup',
      );
      expect(suggested).toMatchObject({
        ...{ answer: 'list', values: covered.split(', '), tested: [test] },
      });
    }
    const higherFirst = (...pair: string[]) =>
      pair.toSorted((c, d) => Number(d) - Number(c)).join('-');
    const like1 = (group: string) => (group === '11' ? '1' : group);
    for (const [c, d] of every) {
      const found = coversMaterialPair({ test: [bare(a), bare(b)], job: [bare(c), bare(d)] });
      const pair = `${c}-${d}`;
      const isTold = !covered
        .split(', ')
        .some((each) => each === pair || each === higherFirst(like1(c), like1(d)));
      expect(found, `${test} for ${pair}`).toBe(isTold ? 'outside' : 'cannotSay');
    }
  });
});

describe('printed: what else of a pair counts (bck.vn, notes on groups)', () => {
  const pair = (a: string, b = a) => [bare(a), bare(b)] as const;
  it.each(['5', '8'])('group %s: the same sub-group and any lower one', (group) => {
    const found = (sub: number) =>
      coversMaterialPair({ test: pair(`${group}.2`), job: pair(`${group}.${sub}`) });
    expect([1, 2, 3].map(found)).toEqual(['inside', 'inside', 'outside']);
  });
  it('group 10: the same sub-group alone, spaces aside', () => {
    const found = (job: string) => coversMaterialPair({ test: pair('10.2'), job: pair(job) });
    expect(['10.1', '10.2', ' 10.2 ', '10.3'].map(found)).toEqual([
      ...['outside', 'inside', 'inside', 'outside'],
    ]);
    expect(coversMaterialPair({ test: pair(' 8.2 '), job: pair('8.2') })).toBe('inside');
  });
  it.each([
    ['2.1', '1.2'],
    ['3.1', '2.1'],
    ['11.1', '1.2'],
  ])('groups 1, 2, 3 and 11, %s for %s: an equal or lower yield', (tested, wanted) => {
    const test = [strong(tested, 460), strong(tested, 460)] as const;
    const found = (mpa: number | null) =>
      coversMaterialPair({
        test,
        job: [
          { group: wanted, yieldMPa: mpa },
          { group: wanted, yieldMPa: mpa },
        ],
      });
    expect([355, 460, 461, null].map(found)).toEqual([
      ...(tested === '11.1'
        ? ['outside', 'outside', 'outside', 'outside']
        : ['inside', 'inside', 'outside', 'cannotSay']),
    ]);
  });
});

describe('independent: pairs of unlike groups, side by side by hand', () => {
  it('a lower yield across the families is safe, a higher one is a question', () => {
    const test = [strong('5.1', 310), strong('5.1', 310)] as const;
    const found = (mpa: number | null) =>
      coversMaterialPair({ test, job: [strong('5.1', 310), { group: '1.2', yieldMPa: mpa }] });
    expect([310, 311, null].map(found)).toEqual(['inside', 'cannotSay', 'cannotSay']);
  });
  it('of two ways to lay like sides together the better one counts', () => {
    const test = [strong('1.2', 355), strong('1.1', 235)] as const;
    const job = (a: number, b: number) => [strong('1.1', a), strong('1.1', b)] as const;
    expect(coversMaterialPair({ test, job: job(235, 355) })).toBe('inside');
    expect(coversMaterialPair({ test, job: job(355, 235) })).toBe('inside');
    expect(coversMaterialPair({ test, job: job(355, 355) })).toBe('outside');
  });
  it('what is no group of steel is no verdict', () => {
    for (const job of ['x', '1x', 'x1', '']) {
      const pair = [bare('1.2'), bare(job)] as const;
      expect(coversMaterialPair({ test: [bare('1.2'), bare('1.2')], job: pair }), job).toBe(
        'cannotSay',
      );
    }
  });
});

it('printed: groups 21 to 26 are aluminium (ISO/TR 15608, as ISO 15614-2 names them)', () => {
  const groups = ['21', '22.3', ' 26 ', '23.10', '20', '27', '2.1', '121', '22.x', '22.3.', '1.22'];
  expect(groups.filter(isAluminium)).toEqual(['21', '22.3', ' 26 ', '23.10']);
});
