import type { Range } from '../range.js';
import { isInBand, isListed } from './judge.js';
import type { Band } from './rule.js';
import type { Suggested } from './suggest.js';
import { bandWords, unitTail, valueWords } from './value-words.js';

/** What QA typed from the signed record: a range, a list, or `null` for nothing stated. */
export type Typed = Range | readonly string[] | null;

export interface CrossCheck {
  answer: 'agrees' | 'ask' | 'cannotSay';
  /** How the typed range lies to the suggested one; null where they were not compared. */
  relation: 'same' | 'narrower' | 'wider' | 'missesTest' | null;
  words: string;
  clause: string | null;
}

function isList(typed: Range | readonly string[]): typed is readonly string[] {
  return Array.isArray(typed);
}

/** Sides of "2-1", "P4-P1" or of a group named alone ("1.2", "P1"), by main group. */
function sidesOf(group: string): string[] {
  return group
    .toUpperCase()
    .split('-')
    .map((side) => side.trim().split('.')[0] ?? '');
}

/** Pairs are written in either order, and many certificates list groups instead of pairs. */
function isGroupListed(group: string, listed: readonly string[]): boolean {
  const wanted = sidesOf(group);
  const isPair = (sides: readonly string[]) => sides.length === 2;
  const listedSides = listed.map(sidesOf);
  if (isPair(wanted) && listedSides.some(isPair)) {
    const key = (sides: readonly string[]) => sides.toSorted().join('-');
    return listedSides.some((sides) => isPair(sides) && key(sides) === key(wanted));
  }
  return wanted.every((side) => listedSides.some((sides) => sides.includes(side)));
}

/** An open end lies only within an open end. */
function liesWithin(inner: Band, outer: Band): boolean {
  const low =
    inner.min === null ? outer.min === null : isInBand(inner.min, { ...outer, max: null });
  const high =
    inner.max === null ? outer.max === null : isInBand(inner.max, { ...outer, min: null });
  return low && high;
}

function answer(
  suggested: Suggested,
  result: Pick<CrossCheck, 'answer' | 'relation' | 'words'>,
): CrossCheck {
  return { ...result, clause: suggested.clause };
}

function compareBands(typed: Band, suggested: Suggested & { answer: 'range' }): CrossCheck {
  const { unit, tested, band, unsure } = suggested;
  const printed = `printed ${bandWords(typed, unit)}`;
  const ruled = `the rule gives ${bandWords(band, unit)}`;
  const missed = tested.find((each) => typeof each === 'number' && !isInBand(each, typed));
  if (missed !== undefined) {
    const words = `${printed}, but the test piece itself is ${missed}${unitTail(unit)}`;
    return answer(suggested, { answer: 'ask', relation: 'missesTest', words });
  }
  if (liesWithin(typed, band)) {
    const isSame = liesWithin(band, typed);
    return answer(suggested, {
      answer: 'agrees',
      relation: isSame ? 'same' : 'narrower',
      words: isSame ? `${printed}, as the rule gives` : `${printed}, within what ${ruled}`,
    });
  }
  if (unsure !== null && liesWithin(typed, unsure)) {
    const words = `${printed}; sure is only ${bandWords(band, unit)}`;
    return answer(suggested, { answer: 'cannotSay', relation: 'wider', words });
  }
  return answer(suggested, { answer: 'ask', relation: 'wider', words: `${printed}, ${ruled}` });
}

function compareLists(
  typed: readonly string[],
  suggested: Suggested & { answer: 'list' },
): CrossCheck {
  const { values, unsure, tested } = suggested;
  const holds = suggested.variable === 'materialGroup' ? isGroupListed : isListed;
  const printed = `printed ${valueWords(typed)}`;
  const missed = tested.find((each) => typeof each === 'string' && !holds(each, typed));
  if (missed !== undefined && typed.every((each) => holds(each, [...values, ...unsure]))) {
    const words = `${printed}, but the test piece itself is ${valueWords([String(missed)])}`;
    return answer(suggested, { answer: 'ask', relation: 'missesTest', words });
  }
  const over = typed.filter((each) => !holds(each, values));
  if (over.length === 0) {
    const isSame = values.every((each) => holds(each, typed));
    const relation = isSame ? 'same' : 'narrower';
    return answer(suggested, { answer: 'agrees', relation, words: `${printed}, within the rule` });
  }
  const words = `${printed}, the rule gives ${valueWords(values)}`;
  const isUnsure = over.every((each) => holds(each, unsure));
  return answer(suggested, { answer: isUnsure ? 'cannotSay' : 'ask', relation: 'wider', words });
}

const silent = (words: string, clause: string | null): CrossCheck => ({
  answer: 'cannotSay',
  relation: null,
  words,
  clause,
});

/**
 * What QA typed from the signed record against what the rule gives. A wider typed range, and one that leaves out the
 * test piece itself, is a question for QA; the signed record still counts. An unsure rule is never a verdict.
 */
export function crossCheck(check: { suggested: Suggested | null; typed: Typed }): CrossCheck {
  const { suggested, typed } = check;
  if (suggested === null) return silent('there is no rule for this variable', null);
  const { clause, unit } = suggested;
  if (suggested.answer === 'cannotSay') return silent(suggested.words, clause);
  if (suggested.answer === 'any') {
    return answer(suggested, { answer: 'agrees', relation: null, words: 'the rule sets no limit' });
  }
  const rule =
    suggested.answer === 'range' ? bandWords(suggested.band, unit) : valueWords(suggested.values);
  if (typed === null) return silent(`nothing is typed; the rule gives ${rule}`, clause);
  if (isList(typed)) {
    if (typed.length === 0) return silent(`nothing is typed; the rule gives ${rule}`, clause);
    return suggested.answer === 'list'
      ? compareLists(typed, suggested)
      : silent(`a list is typed where the rule gives ${rule}`, clause);
  }
  if (suggested.answer !== 'range') {
    return silent(`a range is typed where the rule gives ${rule}`, clause);
  }
  if (typed.min === null && typed.max === null) {
    return silent(`nothing is typed; the rule gives ${rule}`, clause);
  }
  return compareBands(typed, suggested);
}
