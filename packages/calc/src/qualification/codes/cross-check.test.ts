import { describe, expect, it } from 'vitest';
import { crossCheck, type Typed } from './cross-check.js';
import type { Suggested } from './suggest.js';

const origin: Omit<Suggested & { answer: 'any' }, 'answer'> = {
  ...{ code: 'ISO 15614-1', edition: '2017', clause: '8.3.2', confidence: 'high' },
  ...{ source: 'iso15614Pairs', variable: 'thickness', unit: 'mm', tested: [12] },
};
const ranged = (
  min: number | null,
  max: number | null,
  more: Partial<Suggested & { answer: 'range' }> = {},
): Suggested => ({ ...origin, answer: 'range', band: { min, max }, unsure: null, ...more });
const listed = (
  values: readonly string[],
  more: Partial<Suggested & { answer: 'list' }> = {},
): Suggested => ({
  ...{ ...origin, variable: 'position', unit: null, tested: ['PA'] },
  ...{ answer: 'list', values, unsure: [], ...more },
});
const said = (suggested: Suggested | null, typed: Typed) => crossCheck({ suggested, typed });

describe('independent: words of a cross-check of limits, written out by hand', () => {
  it.each<[Suggested, { min: number | null; max: number | null }, string]>([
    [ranged(3, 24), { min: 3, max: 24 }, 'agrees same: printed 3 to 24 mm, as the rule gives'],
    [
      ranged(3, 24),
      { min: 4, max: null },
      'ask wider: printed 4 mm and more, the rule gives 3 to 24 mm',
    ],
    [
      ranged(3, 24),
      { min: null, max: 20 },
      'ask wider: printed up to 20 mm, the rule gives 3 to 24 mm',
    ],
    [
      ranged(3, null),
      { min: 5, max: 20 },
      'agrees narrower: printed 5 to 20 mm, within what the rule gives 3 mm and more',
    ],
    [
      ranged(null, 24),
      { min: 5, max: 30 },
      'ask wider: printed 5 to 30 mm, the rule gives up to 24 mm',
    ],
    [
      ranged(null, null),
      { min: 5, max: 30 },
      'agrees narrower: printed 5 to 30 mm, within what the rule gives no limit',
    ],
    [
      ranged(5, null, { band: { min: 5, max: null, minOpen: true } }),
      { min: 5, max: 30 },
      'ask wider: printed 5 to 30 mm, the rule gives over 5 mm',
    ],
    [
      ranged(3, 24),
      { min: 3, max: 10 },
      'ask missesTest: printed 3 to 10 mm, but the test piece itself is 12 mm',
    ],
    [
      ranged(3, 24, { unit: null }),
      { min: 13, max: 20 },
      'ask missesTest: printed 13 to 20, but the test piece itself is 12',
    ],
    [
      ranged(3, 24, { unit: null, unsure: { min: 3, max: 30 } }),
      { min: 3, max: 30 },
      'cannotSay wider: printed 3 to 30; sure is only 3 to 24',
    ],
    [
      ranged(3, 24.123456),
      { min: 3, max: 30 },
      'ask wider: printed 3 to 30 mm, the rule gives 3 to 24.1235 mm',
    ],
  ])('%#', (suggested, typed, wanted) => {
    const { answer, relation, words, clause } = said(suggested, typed);
    expect(`${answer} ${relation}: ${words}`).toBe(wanted);
    expect(clause).toBe('8.3.2');
  });

  it('an end that is typed open lies within an open one alone', () => {
    expect(said(ranged(null, 24), { min: null, max: 24 }).relation).toBe('same');
    expect(said(ranged(3, 24), { min: null, max: 24 }).relation).toBe('wider');
    expect(said(ranged(3, null), { min: 3, max: null }).relation).toBe('same');
    expect(said(ranged(null, 24), { min: 3, max: 24 }).relation).toBe('narrower');
  });
});

describe('independent: words of a cross-check of lists, written out by hand', () => {
  it.each<[Suggested, readonly string[], string]>([
    [listed(['PA', 'PB']), ['PB', 'PA'], 'agrees same: printed PB, PA, within the rule'],
    [listed(['PA', 'PB']), ['PA'], 'agrees narrower: printed PA, within the rule'],
    [listed(['PA', 'PB']), ['PB'], 'ask missesTest: printed PB, but the test piece itself is PA'],
    [
      listed(['PA', 'PB'], { unsure: ['PF'] }),
      ['PF'],
      'ask missesTest: printed PF, but the test piece itself is PA',
    ],
    [listed(['PA', 'PB']), ['PB', 'PG'], 'ask wider: printed PB, PG, the rule gives PA, PB'],
    [
      listed(['PA', 'PB'], { unsure: ['PF'] }),
      ['PA', 'PF'],
      'cannotSay wider: printed PA, PF, the rule gives PA, PB',
    ],
    [
      listed(['PA', 'PB'], { unsure: ['PF'] }),
      ['PA', 'PF', 'PG'],
      'ask wider: printed PA, PF, PG, the rule gives PA, PB',
    ],
  ])('%#', (suggested, typed, wanted) => {
    const { answer, relation, words } = said(suggested, typed);
    expect(`${answer} ${relation}: ${words}`).toBe(wanted);
  });

  const groups = (values: readonly string[], tested: readonly string[]) =>
    listed(values, { variable: 'materialGroup', tested });
  it('pairs of groups count in either order, and not by one of their sides', () => {
    const mixed = groups(['8-1', '8-2'], ['8-1']);
    expect(said(mixed, ['1-8', '2-8']).relation).toBe('same');
    expect(said(mixed, ['8-1', '8-8']).relation).toBe('wider');
    expect(said(mixed, ['8-1', '2']).relation).toBe('narrower');
  });
  it('groups that are named alone count for both sides, sub-groups by their group', () => {
    const mixed = groups(['8-1'], ['8-1']);
    expect(said(mixed, ['8.1', '1.2']).relation).toBe('same');
    expect(said(mixed, ['8.1']).relation).toBe('missesTest');
    expect(said(groups(['P4-P1'], ['P4-P1']), [' p1 - p4 ']).relation).toBe('same');
  });
});

describe('a cross-check compares nothing', () => {
  it.each<[string, Suggested | null, Typed, string]>([
    ['without a rule', null, { min: 1, max: 2 }, 'there is no rule for this variable'],
    [
      'where the rule cannot say',
      {
        ...origin,
        answer: 'cannotSay',
        reason: 'notGiven',
        words: 'why',
        band: null,
        values: null,
      },
      { min: 1, max: 2 },
      'why',
    ],
    ['where nothing is typed', ranged(3, 24), null, 'nothing is typed; the rule gives 3 to 24 mm'],
    [
      'where both ends are open',
      ranged(3, 24),
      { min: null, max: null },
      'nothing is typed; the rule gives 3 to 24 mm',
    ],
    ['where the list is empty', listed(['PA']), [], 'nothing is typed; the rule gives PA'],
    [
      'with a list for limits',
      ranged(3, 24),
      ['PA'],
      'a list is typed where the rule gives 3 to 24 mm',
    ],
    [
      'with limits for a list',
      listed(['PA', 'PB']),
      { min: 1, max: 2 },
      'a range is typed where the rule gives PA, PB',
    ],
  ])('%s', (_, suggested, typed, words) => {
    const clause = suggested === null ? null : '8.3.2';
    expect(said(suggested, typed)).toEqual({ answer: 'cannotSay', relation: null, words, clause });
  });

  it('and has nothing to ask where the rule sets no limit', () => {
    expect(said({ ...origin, answer: 'any' }, { min: 1, max: 2 })).toEqual({
      ...{ answer: 'agrees', relation: null, words: 'the rule sets no limit', clause: '8.3.2' },
    });
  });
});
