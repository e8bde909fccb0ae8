import { rangeWords } from '$lib/cell/words.js';
import { m } from '$lib/paraglide/messages.js';
import type { CoverageCell, Hold } from './coverage-layout.js';

export function stepWords({ fromMm, toMm }: Pick<CoverageCell, 'fromMm' | 'toMm'>): string {
  return rangeWords(fromMm, toMm, 'mm');
}

export function holdWord(hold: Hold): string {
  const words = {
    both: m.coverage_key_both,
    procedure: m.coverage_key_procedure,
    person: m.coverage_key_person,
    none: m.coverage_key_none,
  } as const satisfies Record<Hold, () => string>;
  return words[hold]();
}

/** Names are many in a shop that lacks a procedure; the first few say what it is about. */
const mostNames = 3;

export function someOf(names: readonly string[]): string {
  const first = names.slice(0, mostNames).join('; ');
  const count = names.length - mostNames;
  return count > 0 ? m.coverage_and_more({ first, count }) : first;
}
