import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finishOf, hoursTable, openFrom } from './hours.js';
import type { PlanProblem } from './problem.js';
import { evaluateOrder } from './search.js';

function step(id: string, more: Partial<PlanProblem['steps'][number]> = {}) {
  return { id, customer: 'A', weight: 1, dueMin: 100, releaseMin: 0, processingMin: [10], ...more };
}

function costed(problem: PlanProblem, lanes: string[][]) {
  const result = evaluateOrder({ problem, lanes });
  if (!result.ok) throw new Error(result.refusal.allowed);
  return result;
}

// Kind: independent, worked by hand; the arithmetic stands beside each figure.
describe('independent: the cost of an order', () => {
  it('sums weight x minutes late over the lane, set-ups before the work', () => {
    const problem: PlanProblem = {
      cells: [{ id: 'c', freeFromMin: 5 }],
      steps: [step('a', { dueMin: 12, weight: 3 }), step('b', { dueMin: 30, weight: 2 })],
      setupMin: [
        [
          [4, 1],
          [0, 6],
          [2, 0],
        ],
      ],
    };
    // a: 5 + 4 + 10 = 19, 7 late x 3 = 21; b: 19 + 6 + 10 = 35, 5 late x 2 = 10.
    expect(costed(problem, [['a', 'b']])).toMatchObject({
      cost: 31,
      steps: [
        [
          { id: 'a', startMin: 5, setupMin: 4, finishMin: 19, lateMin: 7, lateCost: 21 },
          { id: 'b', startMin: 19, setupMin: 6, finishMin: 35, lateMin: 5, lateCost: 10 },
        ],
      ],
    });
    // b: 5 + 1 + 10 = 16; a: 16 + 2 + 10 = 28, 16 late x 3 = 48.
    expect(costed(problem, [['b', 'a']]).cost).toBe(48);
  });

  it('waits for a release before the set-up begins', () => {
    const problem: PlanProblem = {
      cells: [{ id: 'c', freeFromMin: 0 }],
      steps: [step('a', { releaseMin: 20, dueMin: 30 })],
      setupMin: [[[5], [0]]],
    };
    // 20 + 5 + 10 = 35.
    expect(costed(problem, [['a']])).toMatchObject({ cost: 5, steps: [[{ finishMin: 35 }]] });
  });

  it('works in open minutes alone', () => {
    const hours = [
      { fromMin: 0, toMin: 8 },
      { fromMin: 50, toMin: 60 },
    ];
    const problem: PlanProblem = {
      cells: [{ id: 'c', freeFromMin: 0, hours }],
      steps: [step('a'), step('b')],
    };
    // a: 8 minutes, then 2 from 50 on: 52. b: 8 to 60, where the hours end, then 2 more after them: 62.
    expect(costed(problem, [['a', 'b']]).steps[0]!.map((each) => each.finishMin)).toEqual([52, 62]);
  });

  it('lets a step wait for another at another cell', () => {
    const problem: PlanProblem = {
      cells: [
        { id: 'booth', freeFromMin: 0 },
        { id: 'robot', freeFromMin: 0 },
      ],
      steps: [
        step('tack', { processingMin: [10, null] }),
        step('weld', { processingMin: [null, 7], after: ['tack'] }),
      ],
    };
    expect(costed(problem, [['tack'], ['weld']]).steps[1]![0]).toMatchObject({
      startMin: 10,
      finishMin: 17,
    });
  });
});

const stretches = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 1, max: 30 })), {
    minLength: 1,
    maxLength: 8,
  })
  .map((pairs) => {
    let end = 0;
    return pairs.map(([gap, length]) => {
      const fromMin = end + gap;
      end = fromMin + length;
      return { fromMin, toMin: end };
    });
  });

describe('independent: open hours', () => {
  it('count the same as minute by minute, never finish in a gap, and never finish earlier for more work', () => {
    fc.assert(
      fc.property(
        stretches,
        fc.nat(150),
        fc.integer({ min: 1, max: 120 }),
        (hours, time, minutes) => {
          const table = hoursTable(hours);
          const last = hours.at(-1)!.toMin;
          const open = (at: number) =>
            at >= last || hours.some(({ fromMin, toMin }) => fromMin <= at && at < toMin);
          let clock = time;
          for (let left = minutes; left > 0; clock += 1) if (open(clock)) left -= 1;
          const finish = finishOf(table, openFrom(table, time), minutes);
          expect(finish).toBe(clock);
          expect(open(finish - 1)).toBe(true);
          expect(finishOf(table, time, minutes + 1)).toBeGreaterThan(finish);
        },
      ),
    );
  });
});
