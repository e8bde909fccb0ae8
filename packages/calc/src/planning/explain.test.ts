import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyLanes, planOf, planShapes } from '../testing/plans.js';
import { acceptMoves, explainOrder } from './explain.js';
import { evaluateOrder } from './search.js';

function sum(numbers: number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}

describe('independent: the explanation of a proposal', () => {
  it('has reasons that add up to the difference of the costs', () => {
    fc.assert(
      fc.property(planShapes, (each) => {
        const base = planOf(each);
        const problem = { ...base, today: anyLanes(base, each.seed + 1) };
        const proposed = anyLanes(base, each.seed + 2);
        const told = explainOrder({ problem, proposed });
        const today = evaluateOrder({ problem, lanes: problem.today });
        const then = evaluateOrder({ problem, lanes: proposed });
        if (!told.ok || !today.ok || !then.ok) throw new Error('refused');
        expect([told.todayCost, told.proposedCost]).toEqual([today.cost, then.cost]);
        const reasons = told.moves.flatMap((move) => move.reasons.map((reason) => reason.cost));
        expect(sum(reasons)).toBe(then.cost - today.cost);
        const setup = (order: typeof then) => sum(order.steps.flat().map((one) => one.setupMin));
        expect(sum(told.moves.map((move) => move.setupMin))).toBe(setup(then) - setup(today));
      }),
      { numRuns: 120 },
    );
  });

  it("gives the proposed lanes when all moves are accepted, and today's when none is", () => {
    fc.assert(
      fc.property(planShapes, (each) => {
        const base = planOf(each);
        const problem = { ...base, today: anyLanes(base, each.seed + 1) };
        const proposed = anyLanes(base, each.seed + 2);
        const told = explainOrder({ problem, proposed });
        if (!told.ok) throw new Error('refused');
        const accepted = told.moves.flatMap((move) => move.steps.map((step) => step.id));
        expect(acceptMoves({ problem, proposed, accepted })).toEqual({ ok: true, lanes: proposed });
        expect(acceptMoves({ problem, proposed, accepted: [] })).toEqual({
          ok: true,
          lanes: problem.today,
        });
      }),
    );
  });

  it('names one move where one step goes forward, with what it saves and whom it costs', () => {
    const step = (id: string, customer: string, dueMin: number, weight: number) => ({
      id,
      customer,
      weight,
      dueMin,
      releaseMin: 0,
      processingMin: [10],
    });
    const problem = {
      cells: [{ id: 'booth 1', freeFromMin: 0 }],
      steps: [step('a', 'Hill', 10, 1), step('b', 'Hill', 20, 1), step('c', 'Brook', 10, 5)],
      today: [['a', 'b', 'c']],
    };
    // Today c ends at 30, 20 late x 5 = 100. With c first: a 10 late, b 10 late, 20 in all.
    expect(explainOrder({ problem, proposed: [['c', 'a', 'b']] })).toEqual({
      ok: true,
      todayCost: 100,
      proposedCost: 20,
      moves: [
        {
          steps: [{ id: 'c', fromCell: 'booth 1', toCell: 'booth 1', afterStep: null }],
          reasons: [
            { kind: 'lateness', customer: 'Brook', cost: -100, lateMin: -20 },
            { kind: 'lateness', customer: 'Hill', cost: 20, lateMin: 20 },
          ],
          cost: -80,
          setupMin: 0,
        },
      ],
    });
  });
});
