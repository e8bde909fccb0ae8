import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askedByPeriod } from './asked-load.js';

function asked(...args: Parameters<typeof askedByPeriod>) {
  const answer = askedByPeriod(...args);
  if (!answer.ok) throw new Error(answer.refusal.allowed);
  return answer.periods;
}

describe('independent: what is asked of each period, worked by hand', () => {
  it('carries what one week cannot hold into the next, and names the work', () => {
    const work = [
      { workMin: 300, dueIn: 0 },
      { workMin: 100, dueIn: 1 },
      { workMin: 250, dueIn: 0 },
    ];
    // 550 of 400: the third has 150 left; the week after is asked for 100 and those 150 of 400.
    expect(asked({ openMin: [400, 400], work })).toEqual([
      { dueMin: 550, carriedMin: 0, share: 1.375, overMin: 150, over: [2] },
      { dueMin: 100, carriedMin: 150, share: 0.625, overMin: 0, over: [] },
    ]);
  });

  it('is exactly full at 100 %, and not over', () => {
    const [week] = asked({ openMin: [400], work: [{ workMin: 400, dueIn: 0 }] });
    expect(week).toMatchObject({ share: 1, overMin: 0, over: [] });
  });

  it('gives no share where nothing is open, and leaves later work alone', () => {
    const work = [
      { workMin: 60, dueIn: 0 },
      { workMin: 90, dueIn: 7 },
    ];
    expect(asked({ openMin: [0], work })).toEqual([
      { dueMin: 60, carriedMin: 0, share: null, overMin: 60, over: [0] },
    ]);
  });

  it('refuses a time below zero and a period that is none', () => {
    expect(askedByPeriod({ openMin: [-1], work: [] })).toMatchObject({
      refusal: { argument: 'openMin.0', given: -1 },
    });
    expect(askedByPeriod({ openMin: [1], work: [{ workMin: 5, dueIn: 0.5 }] })).toMatchObject({
      refusal: { argument: 'work.0.dueIn', given: 0.5 },
    });
  });

  it('never loses a minute: what was due so far is done or carried', () => {
    const some = fc.array(fc.record({ workMin: fc.nat(500), dueIn: fc.nat(3) }));
    const weeks = fc.array(fc.nat(600), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(some, weeks, (work, openMin) => {
        const periods = asked({ openMin, work });
        periods.forEach(({ dueMin, carriedMin, overMin }, at) => {
          expect(carriedMin).toBe(periods[at - 1]?.overMin ?? 0);
          expect(overMin).toBe(Math.max(0, dueMin + carriedMin - (openMin[at] ?? 0)));
        });
      }),
    );
  });
});
