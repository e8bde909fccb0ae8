import type { FitResult } from '../answer.js';
import { codeIdOf } from '../codes/code-names.js';
import { processLetters } from '../designations/processes.js';

/**
 * Does welding done keep a qualification alive that lives by continuity? The same process for the same employer
 * counts, whatever code the work was done under (AWS official interpretation D1.1-06-I08b; ASME IX QW-322 likewise
 * goes by process). Codes that ask for a signed confirmation instead are `cannotSay`.
 */
export function countsAsUse(facts: {
  code: string;
  process: string;
  use: { process: string | null; sameEmployer: boolean | null };
}): FitResult {
  const code = codeIdOf(facts.code);
  if (code !== 'AWS D1.1' && code !== 'ASME IX') return 'cannotSay';
  const [own, used] = [processLetters(facts.process), processLetters(facts.use.process)];
  if (own === null || used === null) return 'cannotSay';
  if (own !== used || facts.use.sameEmployer === false) return 'outside';
  return facts.use.sameEmployer === null ? 'cannotSay' : 'inside';
}
