import { describe, expect, it } from 'vitest';
import { judgeListed, judgeMaterialGroups, judgeNumber, judgeNumbers } from './range.js';
import { marginOf, resultOfNumber, toleranceOf, type Range } from './range.js';

const at = (given: number | null, range: Range | null) =>
  judgeNumber({ variable: 'thickness', unit: 'mm', given, range });
const said = ({ result, reason, margin }: ReturnType<typeof at>) =>
  `${result} ${reason} ${String(margin)}`;

describe('independent: a value against limits, by hand', () => {
  it.each<[number | null, Range | null, string]>([
    [5, { min: 3, max: 12 }, 'inside inRange 2'],
    [3, { min: 3, max: 12 }, 'inside inRange 0'],
    [12, { min: 3, max: 12 }, 'inside inRange 0'],
    [2, { min: 3, max: 12 }, 'outside belowMin -1'],
    [13, { min: 3, max: 12 }, 'outside aboveMax -1'],
    [13, { min: null, max: 12 }, 'outside aboveMax -1'],
    [2, { min: 3, max: null }, 'outside belowMin -1'],
    [100, { min: 3, max: null }, 'inside inRange 97'],
    [5, { min: null, max: null }, 'cannotSay rangeMissing null'],
    [5, null, 'cannotSay rangeMissing null'],
    [null, { min: 3, max: 12 }, 'cannotSay valueMissing null'],
    [NaN, { min: 3, max: 12 }, 'cannotSay valueMissing null'],
    [Infinity, { min: 3, max: 12 }, 'cannotSay valueMissing null'],
  ])('%s in %o: %s', (given, range, words) => {
    expect(said(at(given, range))).toBe(words);
    expect(resultOfNumber(given, range)).toBe(words.split(' ')[0]);
  });
  it('shows value, unit and limits, and no value that is none', () => {
    expect(at(5, { min: 3, max: null })).toEqual({
      ...{ variable: 'thickness', unit: 'mm', given: 5, min: 3, max: null },
      ...{ allowed: null, result: 'inside', reason: 'inRange', margin: 2 },
    });
    expect(at(NaN, { min: 3, max: 12 }).given).toBe(null);
  });
  it('is on a limit within a billionth of it, or of 1 for the small', () => {
    expect([0.5, -0.5, 1, 1024, -1024].map(toleranceOf)).toEqual([
      ...[1e-9, 1e-9, 1e-9, 1024e-9, 1024e-9],
    ]);
    expect(marginOf(12 + 1e-8, { min: 3, max: 12 })).toBe(0);
    expect(marginOf(2000 + 1e-6, { min: 3, max: 2000 })).toBe(0);
    expect(marginOf(2000 + 3e-6, { min: 3, max: 2000 })).toBeLessThan(0);
    expect(marginOf(0.5 + 2e-9, { min: null, max: 0.5 })).toBeLessThan(0);
    expect(marginOf(0.5 + 1e-9 / 2, { min: null, max: 0.5 })).toBe(0);
    expect(marginOf(1.5e-9, { min: 0, max: null })).toBe(1.5e-9);
    expect(marginOf(1e-9, { min: 0, max: null })).toBe(0);
  });
  it('of several values shows the one outside, else one that is none, else the nearest', () => {
    const many = (...given: number[]) => {
      const range = { min: 3, max: 12 };
      const line = judgeNumbers({ variable: 'thickness', unit: 'mm', range }, given);
      return `${line.result} ${String(line.given)}`;
    };
    expect(many(6, 11, 4)).toBe('inside 11');
    expect(many(6, 20, NaN, 1)).toBe('outside 20');
    expect(many(6, NaN, 4)).toBe('cannotSay null');
    expect(many()).toBe('cannotSay null');
  });
});

describe('independent: a designation against a list, by hand', () => {
  const listed = (given: string | null, ...allowed: string[]) => {
    const { result, reason } = judgeListed({ variable: 'gas', given, allowed });
    return `${result} ${reason}`;
  };
  it.each<[string | null, string[], string]>([
    ['M21', ['m21'], 'inside listed'],
    [' G 3Si1', ['g  3si1 '], 'inside listed'],
    ['G3Si1', ['G 3Si1'], 'outside notListed'],
    ['M21', ['M2', 'M211'], 'outside notListed'],
    ['M21', [], 'cannotSay rangeMissing'],
    [null, ['M21'], 'cannotSay valueMissing'],
    [' ', ['M21'], 'cannotSay valueMissing'],
  ])('%s among %o: %s', (given, allowed, words) => {
    expect(listed(given, ...allowed)).toBe(words);
  });

  const groups = (given: string[], ...allowed: string[]) => {
    const line = judgeMaterialGroups({ variable: 'materialGroup', allowed }, given);
    return `${line.result} ${line.reason} ${String(line.given)}`;
  };
  it.each<[string[], string[], string]>([
    [['1.1', '1.2'], ['1'], 'inside listed 1.1 + 1.2'],
    [['1.1', '1.1'], ['1'], 'inside listed 1.1'],
    [['1.1'], ['8', '1'], 'inside listed 1.1'],
    [['1'], ['1.1'], 'cannotSay subGroupMissing 1'],
    [['1'], ['8', '1.1'], 'cannotSay subGroupMissing 1'],
    [['1.1', '1', '8'], ['1.1'], 'outside notListed 8'],
    [['1.1', '1'], ['1.1'], 'cannotSay subGroupMissing 1'],
    [['11'], ['1'], 'outside notListed 11'],
    [['11.1'], ['1'], 'outside notListed 11.1'],
    [['1'], ['11.1'], 'outside notListed 1'],
    [[], ['1'], 'cannotSay valueMissing null'],
    [['1.1'], [], 'cannotSay rangeMissing 1.1'],
    [[' '], ['1'], 'cannotSay valueMissing  '],
  ])('groups %o in %o: %s', (given, allowed, words) => {
    expect(groups(given, ...allowed)).toBe(words);
  });
});
