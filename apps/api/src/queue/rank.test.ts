import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rankBetween, rankGap } from './rank.js';

it('starts an empty queue and goes on at both of its ends', () => {
  expect(rankBetween({ before: null, after: null })).toBe(rankGap);
  expect(rankBetween({ before: 2048, after: null })).toBe(2048 + rankGap);
  expect(rankBetween({ before: null, after: 1024 })).toBe(1024 - rankGap);
});

it('asks for new numbers when the neighbours stand too close', () => {
  expect(rankBetween({ before: 1, after: 1 })).toBeNull();
  expect(rankBetween({ before: 1, after: 1 + 1e-7 })).toBeNull();
});

it('always lies strictly between its neighbours', () => {
  const rank = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(rank, rank, (one, other) => {
      const [before, after] = [Math.min(one, other), Math.max(one, other)];
      const between = rankBetween({ before, after });
      if (between === null) return after - before <= 1e-6;
      return before < between && between < after;
    }),
  );
});
