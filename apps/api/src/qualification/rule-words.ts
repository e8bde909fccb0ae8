import {
  bandWords,
  crossCheck,
  limitShown,
  sources,
  valueWords,
  type Suggested,
  type SuggestedRanges,
} from '@tackboard/calc';
import type { SuggestedRange } from '@tackboard/contract';

type Typed = Parameters<typeof crossCheck>[0]['typed'];
const shown = (limit: number | null) => (limit === null ? null : limitShown(limit));

function wordsOf(suggested: Suggested): string {
  switch (suggested.answer) {
    case 'range':
      return bandWords(suggested.band, suggested.unit);
    case 'list':
      return valueWords(suggested.values);
    case 'any':
      return 'no limit';
    case 'cannotSay':
      return suggested.words;
  }
}

function unsureOf(suggested: Suggested): string | null {
  if (suggested.answer === 'range' && suggested.unsure !== null) {
    return bandWords(suggested.unsure, suggested.unit);
  }
  if (suggested.answer === 'list' && suggested.unsure.length > 0) {
    return valueWords(suggested.unsure);
  }
  if (suggested.answer !== 'cannotSay') return null;
  if (suggested.band !== null) return bandWords(suggested.band, suggested.unit);
  return suggested.values === null ? null : valueWords(suggested.values);
}

/** One suggestion as the screens show it; `field` names where it belongs, with what stands there. */
function suggestionView(
  suggested: Suggested,
  at: { field: string; typed: Typed } | null,
): SuggestedRange {
  const band = suggested.answer === 'range' ? suggested.band : null;
  const { variable, unit, code, edition, clause, confidence, source, answer } = suggested;
  const check = at === null ? null : crossCheck({ suggested, typed: at.typed });
  return {
    variable,
    field: at?.field ?? null,
    answer,
    unit,
    min: shown(band?.min ?? null),
    max: shown(band?.max ?? null),
    values: suggested.answer === 'list' ? [...suggested.values] : [],
    unsure: unsureOf(suggested),
    words: wordsOf(suggested),
    rule: `${code}:${edition} ${clause}`,
    confidence,
    source: sources[source].title,
    check: check && { answer: check.answer, words: check.words },
  };
}

/** Everything the tables of one code give for a test, each beside the field that it belongs to. */
export function suggestionViews(
  { ranges }: SuggestedRanges,
  typed: ReadonlyMap<string, { field: string; typed: Typed }>,
): SuggestedRange[] {
  return ranges.map((each) => suggestionView(each, typed.get(each.variable) ?? null));
}

/** What was typed for a variable and the field it stands in. */
export function typedFields(
  entries: readonly (readonly [variable: string, field: string, typed: Typed])[],
): ReadonlyMap<string, { field: string; typed: Typed }> {
  return new Map(entries.map(([variable, field, typed]) => [variable, { field, typed }]));
}

const transfers: readonly (readonly [RegExp, string])[] = [
  [/^(d|short|dip)/i, 'D'],
  [/^g/i, 'G'],
  [/^s/i, 'S'],
  [/^p/i, 'P'],
];

/** D short circuit, G globular, S spray, P pulsed: a letter or its word. */
export function transferLetter(word: string | null): string | null {
  const plain = word?.trim() ?? '';
  return transfers.find(([pattern]) => pattern.test(plain))?.[1] ?? null;
}

/** Nothing typed is nothing known. */
export function known(word: string | null | undefined): string | null {
  const plain = word?.trim() ?? '';
  return plain === '' ? null : plain;
}
