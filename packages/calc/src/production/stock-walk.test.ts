import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stockThroughQueue } from './stock-walk.js';

function walk(...args: Parameters<typeof stockThroughQueue>) {
  const answer = stockThroughQueue(...args);
  if (!answer.ok) throw new Error(answer.refusal.allowed);
  return answer;
}

describe('independent: stock through the queue, worked by hand', () => {
  it('takes what hangs at the cell first, then from the store, and says who is short', () => {
    // R1: 3 of its 4; R2: 5 of 2 and 3 from store; R1: 1 left, 2 left in store, 2.1 short.
    const { short, needed } = walk({
      inStore: 5,
      onCell: { R1: 4, R2: 2 },
      draws: [
        { cellId: 'R1', amount: 3 },
        { cellId: 'R2', amount: 5 },
        { cellId: 'R1', amount: 5.1 },
      ],
    });
    expect(short).toEqual([0, 0, 2.1]);
    expect(needed).toBeCloseTo(13.1, 12);
  });

  it('draws on no other cell', () => {
    const draws = [{ cellId: 'R2', amount: 1 }];
    expect(walk({ inStore: 0, onCell: { R1: 9 }, draws }).short).toEqual([1]);
  });

  it('refuses an amount below zero', () => {
    const draws = [{ cellId: 'R1', amount: -1 }];
    expect(stockThroughQueue({ inStore: 1, onCell: {}, draws })).toMatchObject({
      refusal: { argument: 'draws.0.amount', given: -1 },
    });
    expect(stockThroughQueue({ inStore: -2, onCell: {}, draws: [] })).toMatchObject({
      refusal: { argument: 'inStore', given: -2 },
    });
    expect(stockThroughQueue({ inStore: 1, onCell: { R1: -3 }, draws: [] })).toMatchObject({
      refusal: { argument: 'onCell.R1', given: -3 },
    });
  });

  it('is short in all of just what one cell needs beyond what it has', () => {
    const amounts = fc.array(fc.nat(50), { minLength: 1 });
    fc.assert(
      fc.property(amounts, fc.nat(100), fc.nat(100), (some, inStore, here) => {
        const draws = some.map((amount) => ({ cellId: 'R1', amount }));
        const { short, needed } = walk({ inStore, onCell: { R1: here }, draws });
        const sum = short.reduce((all, each) => all + each, 0);
        expect(sum).toBe(Math.max(0, needed - inStore - here));
      }),
    );
  });
});
