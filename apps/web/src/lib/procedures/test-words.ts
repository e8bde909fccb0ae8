import type {
  demands,
  gaps,
  runCounts,
  TestChoice,
  TestsToMake,
  TestToMake,
} from '@tackboard/contract';
import { mechanisationWord } from '$lib/cells/mechanisation.js';
import { plainNumber } from '$lib/format/number.js';
import { m } from '$lib/paraglide/messages.js';
import { jointWord } from '$lib/parts/words.js';
import { ruleVariableWord } from './rule-variable-words.js';

export const codeName = ({ code, edition }: Pick<TestsToMake, 'code' | 'edition'>) =>
  `${code}:${edition}`;

export function forWord(whom: TestsToMake['for']): string {
  return { procedures: m.pay_for_procedures, people: m.pay_for_people }[whom]();
}

export function gapWord(gap: (typeof gaps)[number]): string {
  return { none: m.pay_gap_none, one: m.pay_gap_one }[gap]();
}

export function demandWord(demand: (typeof demands)[number]): string {
  return { demanded: m.pay_demanded, notDemanded: m.pay_not_demanded }[demand]();
}

export function runsWord(runs: (typeof runCounts)[number]): string {
  return { unknown: m.pay_runs_unknown, single: m.pay_runs_single, multi: m.pay_runs_multi }[
    runs
  ]();
}

/** "fillet, process 135, PB, 1.2 S355J2, t 15 mm, a 4 mm". */
export function pieceWords(test: TestToMake): string {
  const { process, mechanisation, jointType, position, materials, thicknessMm, throatMm, unit } =
    test;
  const words = [
    jointWord(jointType),
    m.pay_process({ process }),
    mechanisationWord(mechanisation),
    position,
    [...new Set(materials)].join(' + '),
    thicknessMm === null ? '' : `t ${plainNumber(thicknessMm)} mm`,
    throatMm === null ? '' : `a ${plainNumber(throatMm)} mm`,
    unit ?? '',
  ];
  return words.filter((each) => each !== '').join(', ');
}

/** What a weld list is judged by; the record would state more. */
const shown: Readonly<Record<TestsToMake['for'], readonly string[]>> = {
  procedures: ['jointType', 'thickness', 'throat', 'position', 'materialGroup'],
  people: ['jointType', 'thickness', 'depositedThickness', 'position', 'filletPosition', 'unit'],
};

export function rangeLines({ ranges }: TestToMake, whom: TestsToMake['for']): string[] {
  return ranges
    .filter(({ variable }) => shown[whom].includes(variable))
    .map(({ variable, words, rule }) => `${ruleVariableWord(variable)}: ${words} (${rule})`);
}

export function partWords({ partNumber, held, of }: TestToMake['parts'][number]): string {
  return held === of
    ? m.pay_whole({ name: partNumber, of })
    : m.pay_some({ name: partNumber, held, of });
}

export function jobWords({ jobNumber, partNumber, held, of }: TestToMake['jobs'][number]): string {
  const name = m.pay_job({ job: jobNumber, part: partNumber });
  return held === of ? m.pay_whole({ name, of }) : m.pay_some({ name, held, of });
}

/** How good a choice is known to be. */
export function choiceWords(choice: TestChoice, kind: 'fewest' | 'best'): string {
  const { tests, welds, proven, bound } = choice;
  const facts = { tests: tests.length, welds, bound };
  if (kind === 'fewest') return proven ? m.pay_fewest_proven(facts) : m.pay_fewest_bound(facts);
  return proven ? m.pay_best_proven(facts) : m.pay_best_bound(facts);
}
