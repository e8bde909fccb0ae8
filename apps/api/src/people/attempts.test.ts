import { describe, expect, it } from 'vitest';
import { afterFailure, waitS, type Attempts } from './attempts.js';

const now = new Date('2026-10-05T07:00:00Z');

function fail(times: number): Attempts {
  let attempts: Attempts | null = null;
  for (let count = 0; count < times; count += 1) attempts = afterFailure(attempts, now);
  if (attempts === null) throw new Error('at least one failure');
  return attempts;
}

describe('failed sign-ins', () => {
  it('leaves four failures without a wait', () => {
    expect(waitS(fail(4), now)).toBe(0);
  });

  // 30 s at the fifth, then 60, 120, 240, 480, 900 and no longer than that.
  it.each([
    [5, 30],
    [6, 60],
    [8, 240],
    [10, 900],
    [40, 900],
  ])('waits after %i failures for %i s', (failures, seconds) => {
    expect(waitS(fail(failures), now)).toBe(seconds);
  });

  it('is free again once the wait is over', () => {
    expect(waitS(fail(5), new Date(now.getTime() + 30_000))).toBe(0);
  });
});
