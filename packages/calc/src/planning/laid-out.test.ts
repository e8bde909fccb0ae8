import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyLanes, planOf, planShapes } from '../testing/plans.js';
import { acceptMoves, explainOrder } from './explain.js';
import { layOut } from './laid-out.js';
import { evaluateOrder, searchOrder } from './search.js';

// Kind: independent, a second route: each function on the bare problem, which it lays out by itself.
describe('independent: a problem laid out once', () => {
  it('gives the answers of the bare problem, asked again and again', () => {
    fc.assert(
      fc.property(planShapes, (shape) => {
        const bare = { ...planOf(shape), today: anyLanes(planOf(shape), shape.seed) };
        const known = layOut(bare);
        if (!known.ok) throw new Error(known.refusal.allowed);
        for (const seed of [shape.seed, shape.seed + 1, shape.seed]) {
          const lanes = anyLanes(bare, seed);
          const accepted = bare.steps.filter((_, at) => at % 2 === 0).map(({ id }) => id);
          const answers = [bare, known.laidOut].map((problem) => {
            const begun = searchOrder({ problem, seed });
            if (begun.ok) begun.search.improve();
            return {
              walked: evaluateOrder({ problem, lanes }),
              told: explainOrder({ problem, proposed: lanes }),
              moved: acceptMoves({ problem, proposed: lanes, accepted }),
              found: begun.ok ? begun.search.lanesSoFar() : begun,
            };
          });
          expect(answers[1]).toEqual(answers[0]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('is refused as the bare problem is', () => {
    const problem = { cells: [], steps: [], today: [] };
    const known = layOut(problem);
    expect(known.ok).toBe(false);
    expect(evaluateOrder({ problem, lanes: [] })).toEqual(known);
  });
});
