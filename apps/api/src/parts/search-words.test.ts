import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matches, ranked, searchKey, widePattern } from './search-words.js';

/** Worked by hand. */
describe('comparing numbers and names', () => {
  it.each([
    ['X-210-01', 'x21001'],
    ['bi/300/1', 'bi3001'],
    ['  DW  FRAME_L. ', 'dwframel'],
    ['ÖSE–20', 'öse20'],
    ['50 %', '50%'],
    ["O'Neil <b> +1", 'oneilb1'],
    ['--', ''],
  ])('%j is compared as %j', (words, key) => {
    expect(searchKey(words)).toBe(key);
  });
  it.each([
    ['X-210-01', 'x 210 01', 0],
    ['X-210-01', 'X210', 1],
    ['X-210-01', '10-01', 2],
    ['X-210-01', 'x%01', null],
    ['X-210-01', 'X_1', null],
    ['Öse links', 'ÖSE', 1],
    ['X-210', '-', 2],
    ['X210', '-', null],
    ['Rail 50 %', '%', 2],
    ['Rail 50', '%', null],
  ])('%j against what was typed, %j: %s', (words, typed, fit) => {
    expect(matches(words, typed)).toBe(fit);
  });
  it('puts the number itself first, then an alias, then beginnings, then the rest', () => {
    const row = (id: string, number: string, alias: string | null = null, name = 'Bracket') => ({
      id,
      number,
      name,
      alias,
    });
    const rows = [
      row('contains', 'A-Y-88'),
      row('begins', 'Y-881'),
      row('alias', 'X-210', 'y 88'),
      row('alias', 'X-210', 'other'),
      row('number', 'Y88'),
      row('name', 'A-1', null, 'Like Y-88'),
      row('nothing', 'Z-1', 'Z'),
    ];
    expect(ranked(rows, 'Y-88')).toEqual(['number', 'alias', 'begins', 'name', 'contains']);
  });
  it('asks the database for no less than what fits', () => {
    const like = (pattern: string) =>
      new RegExp(
        `^${pattern.replace(
          /\\(.)|(%)|(_)|([^])/gu,
          (_all, literal?: string, any?: string, one?: string, plain?: string) => {
            if (any !== undefined) return '[^]*';
            if (one !== undefined) return '[^]';
            return (literal ?? plain ?? '').replace(/[.*+?^${}()|[\]\\/]/g, String.raw`\$&`);
          },
        )}$`,
        'iu',
      );
    const characters = fc.constantFrom(...'aAbB12-_./ %\\öÖ'.split(''));
    const words = fc.string({ unit: characters, minLength: 1, maxLength: 8 });
    const typed = fc
      .string({ unit: characters, minLength: 1, maxLength: 3 })
      .filter((each) => each.trim() !== '');
    fc.assert(
      fc.property(words, typed, (each, sought) => {
        return matches(each, sought) === null || like(widePattern(sought)).test(each);
      }),
      { numRuns: 2000 },
    );
  });
});
