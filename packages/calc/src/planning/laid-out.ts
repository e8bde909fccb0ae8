import { refused, type Refused } from '../result.js';
import { checkProblem } from './check.js';
import type { PlanProblem } from './problem.js';
import { tablesOf, type Tables } from './tables.js';

/** A problem that was checked and laid out as tables once, to be asked about many orders. */
export class LaidOut<P extends PlanProblem = PlanProblem> {
  constructor(
    readonly problem: P,
    readonly tables: Tables,
  ) {}
}

/**
 * Checks a problem and lays it out. Whoever asks about one order need not: each function takes the bare problem too
 * and lays it out itself, which takes far longer than the answer. Later changes of the problem are not seen. Refuses
 * a problem that cannot be planned, in words.
 */
export function layOut<P extends PlanProblem>(
  problem: P | LaidOut<P>,
): { ok: true; laidOut: LaidOut<P> } | Refused {
  if (problem instanceof LaidOut) return { ok: true, laidOut: problem };
  const wrong = checkProblem(problem);
  if (wrong) return refused(wrong);
  return { ok: true, laidOut: new LaidOut(problem, tablesOf(problem)) };
}
