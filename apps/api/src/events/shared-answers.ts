import type { UnitOfWork } from '../db/unit-of-work.js';

/** Figures up to now and the marks of lateness move on by themselves. */
const freshMs = 5_000;
const mostKept = 100;

interface Kept {
  readonly sinceMs: number;
  readonly answer: Promise<unknown>;
}

/** The answer to a question that is the same for everybody who may ask it. */
export type Shared = <T>(question: string, work: () => Promise<T>) => Promise<T>;

/**
 * After each event every open screen asks for the same again: the work is done once for all of them. What was worked
 * out before a commit is of no use after it, because each change writes its event in the same commit.
 */
export function shareAnswers(uow: Pick<UnitOfWork, 'onCommit'>, clock: { now(): Date }): Shared {
  const kept = new Map<string, Kept>();
  uow.onCommit(() => kept.clear());
  return async (question, work) => {
    const nowMs = clock.now().getTime();
    const known = kept.get(question);
    if (known !== undefined && Math.abs(nowMs - known.sinceMs) < freshMs)
      return known.answer as ReturnType<typeof work>;
    if (kept.size >= mostKept) kept.clear();
    const answer = work();
    const mine = { sinceMs: nowMs, answer };
    kept.set(question, mine);
    answer.catch(() => {
      if (kept.get(question) === mine) kept.delete(question);
    });
    return answer;
  };
}
