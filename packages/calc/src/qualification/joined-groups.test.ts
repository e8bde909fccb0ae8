import { describe, expect, it } from 'vitest';
import { judgeJoinedGroups } from './joined-groups.js';

const joined = (given: string[], ...allowed: string[]) => {
  const line = judgeJoinedGroups({ variable: 'materialGroup', allowed }, given);
  return `${line.result} ${line.reason}`;
};

describe('printed: pairs of groups, ISO 15614-1 Table 5 and ASME IX QW-424', () => {
  it.each<[string[], string[], string]>([
    // A test on 8-1 covers 8-1 alone: neither stainless to stainless nor carbon steel to carbon steel.
    [['8.1', '1.2'], ['8-1'], 'inside listed'],
    [['1.2', '8.1'], ['8-1'], 'inside listed'],
    [['8.1', '8.1'], ['8-1'], 'outside notListed'],
    [['1.2', '1.2'], ['8-1'], 'outside notListed'],
    [['2.1', '2.1'], ['2-1', '1-1'], 'outside notListed'],
    [['2.1', '1.1'], ['2-1', '1-1'], 'inside listed'],
    [['1.1', '1.2'], ['2-1', '1-1'], 'inside listed'],
    [['3.1', '2.1'], ['3-3', '3-2', '3-1'], 'inside listed'],
    [['10.1', '8.1'], ['10.1-8.1'], 'inside listed'],
    [['10.2', '8.1'], ['10.1-8.1'], 'outside notListed'],
    [['P8', 'P1'], ['P8-P1'], 'inside listed'],
    [['P1', 'P1'], ['P8-P1'], 'outside notListed'],
  ])('%o in %o: %s', (given, allowed, words) => {
    expect(joined(given, ...allowed)).toBe(words);
  });

  it.each<[string[], string[]]>([
    [
      ['8.1', '8.1'],
      ['8', '1'],
    ],
    [
      ['1.2', '1.2'],
      ['8.1', '1.2'],
    ],
    [
      ['8.1', '1.2'],
      ['1', '8'],
    ],
    [
      ['11.1', '1.1'],
      ['11', '1'],
    ],
    [
      ['P1', 'P1'],
      ['P1', 'P8'],
    ],
  ])('%o in the mere list %o cannot be told: no test covers all its pairs', (given, allowed) => {
    expect(joined(given, ...allowed)).toBe('cannotSay pairMissing');
  });

  it('reads a list that one test covers in all its pairs as all of them', () => {
    expect(joined(['2.1', '1.2'], '1', '2')).toBe('inside listed');
    expect(joined(['3.1', '3.1'], '1', '2', '3')).toBe('inside listed');
    expect(joined(['1.1', '1.2'], '1.1', '1.2')).toBe('inside listed');
  });
});

describe('independent: pairs beside groups, by hand', () => {
  it.each<[string[], string[], string]>([
    [['1.1', '1.1'], ['8-1', '1'], 'inside listed'],
    [['8.1', '8.1'], ['8-1', '1'], 'outside notListed'],
    [['8', '1.1'], ['8.1-1'], 'cannotSay subGroupMissing'],
    [['8.1'], ['8-1'], 'outside notListed'],
    [['8.1', '1.1', '1.2'], ['8-1'], 'outside notListed'],
    [['8.1', '1.1', '1.2'], ['8-1', '1-1'], 'inside listed'],
    [['8.1', ' '], ['8-1'], 'cannotSay valueMissing'],
    [[], ['8-1'], 'cannotSay valueMissing'],
    [['1.1', '1.1'], [], 'cannotSay rangeMissing'],
    [['8.1', '1.1'], [' 8 - 1 '], 'inside listed'],
    // No pairs: a name with a dash is one name.
    [['P-1', 'P-1'], ['P-1'], 'inside listed'],
    [['I', 'II'], ['I', 'II'], 'inside listed'],
    [['8.1', '22.1'], ['1', '2'], 'outside notListed'],
  ])('%o in %o: %s', (given, allowed, words) => {
    expect(joined(given, ...allowed)).toBe(words);
  });
});
