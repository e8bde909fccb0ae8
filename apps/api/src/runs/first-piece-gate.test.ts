import { describe, expect, it } from 'vitest';
import { Refusal } from '../refusal.js';
import { refuseUnchecked, refuseUncheckedEnd } from './first-piece-gate.js';

type Result = 'passed' | 'failed' | 'waitingQa' | null;
const run = (firstPiece: Result, stepGoodCount = 0, goodLikeThis = stepGoodCount) => ({
  goodLikeThis,
  view: { jobNumber: 7, partNumber: 'X-210', stepGoodCount, firstPiece },
});
function words(act: () => void): string | null {
  try {
    act();
  } catch (error) {
    if (error instanceof Refusal) return error.message;
    throw error;
  }
  return null;
}
const count = (of: ReturnType<typeof run>, good: number, rework = 0) =>
  words(() => {
    refuseUnchecked(of, { good, rework });
  });

describe('counting before the first piece has passed', () => {
  it('takes one part and refuses the second', () => {
    expect(count(run(null), 1)).toBeNull();
    expect(count(run(null), 2)).toBe(
      'The first piece of job 7 (X-210) has not passed, so 2 parts cannot be counted. Check it and sign it first.',
    );
    expect(count(run(null, 1), 1)).toContain('2 parts cannot be counted');
    expect(count(run(null, 1), 0, 1)).toContain('2 parts cannot be counted');
  });

  it('takes scrap as it falls', () => {
    expect(count(run('failed', 1), 0)).toBeNull();
  });

  it('counts on once it has passed', () => {
    expect(count(run('passed', 1), 11)).toBeNull();
  });

  it('says what to do where it failed or waits', () => {
    expect(count(run('failed'), 2)).toContain('raise an NCR and check another one');
    expect(count(run('waitingQa'), 2)).toContain('waits for the signature of QA');
  });

  it('starts anew where parts were made another way', () => {
    expect(count(run(null, 5, 0), 1)).toBeNull();
    expect(count(run(null, 5, 0), 2)).not.toBeNull();
  });

  it('starts anew where an NCR took the counted part out', () => {
    expect(count(run('failed', 0, 1), 1)).toBeNull();
  });
});

describe('putting down as complete', () => {
  const end = (of: ReturnType<typeof run>) =>
    words(() => {
      refuseUncheckedEnd(of);
    });

  it('is refused on a part that nobody has signed, even when it is the only one', () => {
    expect(end(run(null, 1))).toContain('cannot be put down as complete');
    expect(end(run('passed', 1))).toBeNull();
    expect(end(run(null, 0))).toBeNull();
    expect(end(run(null, 5, 0))).toBeNull();
  });
});
