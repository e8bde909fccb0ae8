import { crossCheck, suggestedFor, suggestProcedureRanges } from '@tackboard/calc';
import type { Wpqr, WpsComparison, WpsDetails } from '@tackboard/contract';
import { transferLetter } from '../qualification/rule-words.js';
import { testOf } from '../qualification/suggest-wpqr.js';

export type ComparedRecord = Pick<
  Wpqr,
  | 'number'
  | 'code'
  | 'edition'
  | 'level'
  | 'process'
  | 'mechanisation'
  | 'filler'
  | 'gas'
  | 'transfer'
  | 'testPiece'
  | 'testedValues'
  | 'ranges'
>;
type Variable = WpsComparison['variable'];

/** The letters of arc modes, ISO 15609-1 (from memory). */
const arcModes: Readonly<Record<string, string>> = {
  D: 'short arc',
  G: 'globular',
  S: 'spray',
  P: 'pulsed',
};
const twoSided: ReadonlySet<string> = new Set(['doubleV', 'doubleBevel']);

/**
 * What a procedure states beside its ranges, held against the rule of each record's code where the code makes it an
 * essential variable: sides with backing and gouging, kind of current, arc mode. What is not stated, and what the
 * code has no rule for, is left out.
 */
export function comparisonsOf(
  details: WpsDetails,
  records: readonly ComparedRecord[],
): WpsComparison[] {
  const stated = statedIn(details);
  if (stated.length === 0) return [];
  return records.flatMap((record) => {
    const suggested = suggestProcedureRanges(testOf(plain(record)));
    return stated.flatMap(({ variable, value }): WpsComparison[] => {
      const given = suggestedFor(suggested, variable);
      if (given === null) return [];
      const check = crossCheck({ suggested: given, typed: [value] });
      return [
        {
          ...{ variable, wpqrNumber: record.number, answer: check.answer },
          words: readable(check.words, variable === 'transfer' ? arcModes : {}),
          rule: `${given.code}:${given.edition} ${given.clause}`,
        },
      ];
    });
  });
}

function statedIn(details: WpsDetails): { variable: Variable; value: string }[] {
  const backing = backingOf(details);
  const transfer = transferLetter(details.transfer);
  return [
    ...(backing === null ? [] : [{ variable: 'backing' as const, value: backing }]),
    ...(details.currentKind === null
      ? []
      : [{ variable: 'currentType' as const, value: details.currentKind }]),
    ...(transfer === null ? [] : [{ variable: 'transfer' as const, value: transfer }]),
  ];
}

function backingOf({ groove, sides, backGouging }: WpsDetails): string | null {
  const both = sides === 'both' || twoSided.has(groove?.preparation.kind ?? '');
  if (both) return backGouging === '' ? 'bothSides' : 'bothSidesGouged';
  if (sides === null || groove === null) return null;
  return groove.preparation.backing === 'none' ? 'oneSide' : 'oneSideBacked';
}

/** On a record the kind of current is typed as it is printed; a procedure chooses it. */
function plain(record: ComparedRecord): ComparedRecord {
  const { currentType } = record.testPiece;
  if (currentType === undefined) return record;
  return { ...record, testPiece: { ...record.testPiece, currentType: plainCurrent(currentType) } };
}

/** DC+, DCEP, "d.c. +" and the like are one kind. */
function plainCurrent(typed: string): string {
  const letters = typed.toUpperCase().replace(/[^A-Z+-]/g, '');
  if (/^(DC\+|DCEP|DC\+VE)$/.test(letters)) return 'DC+';
  if (/^(DC-|DCEN|DC-VE)$/.test(letters)) return 'DC-';
  return letters === 'AC' ? 'AC' : typed;
}

function readable(text: string, names: Readonly<Record<string, string>>): string {
  const named = Object.entries(names).reduce(
    (sentence, [code, word]) => sentence.replace(new RegExp(`\\b${code}\\b`, 'g'), word),
    text,
  );
  return named.replace(/^printed /, 'here ');
}
