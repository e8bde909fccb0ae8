import { evaluateOrder, layOut } from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import type { Plan } from './plan.js';
import { changeOverIn, setUpTable } from './set-up-table.js';
import { withoutIdleMoves } from './tidy.js';

/** Steps of 30 min; capital letters share one fixture, small ones another. */
function planOf(today: string[], dueMin: Record<string, number>): Plan {
  const ids = today.flatMap((lane) => [...lane]);
  const cells = today.map((_, at) => ({ id: `cell ${at}`, freeFromMin: 0 }));
  return {
    problem: {
      cells,
      today: today.map((lane) => [...lane]),
      steps: ids.map((id) => ({
        ...{ id, customer: 'Alder', weight: 1, releaseMin: 0, dueMin: dueMin[id] ?? 10_000 },
        processingMin: cells.map(() => 30),
      })),
    },
    setUps: ids.map((id) => ({
      ...{ stepId: id, setUpMin: 20 },
      kept: cells.map(() => ({
        ...{ wireItemId: null, gasItemId: null, torch: '', programId: null },
        fixtureId: id === id.toUpperCase() ? 'f1' : 'f2',
      })),
    })),
    pace: cells.map(() => 1),
    learnt: cells.map(() => []),
  };
}

function tidied(plan: Plan, proposed: string[], isLate = () => false): string[] {
  const lanes = proposed.map((lane) => [...lane]);
  const known = layOut({ ...plan.problem, setupMin: setUpTable(plan) });
  if (!known.ok) throw new Error(known.refusal.allowed);
  const { laidOut: problem } = known;
  return withoutIdleMoves({ plan, problem, lanes, isLate }).map((lane) => lane.join(''));
}

describe('an order without idle moves', () => {
  it('leaves what gains nothing where it is, and keeps what does', () => {
    // D is late unless it goes first; the other two only changed places.
    const plan = planOf(['ABCD'], { D: 60 });
    expect(tidied(plan, ['DCBA'])).toEqual(['DABC']);
  });

  it('is the order of today where nothing is gained', () => {
    const plan = planOf(['ABC', 'DE'], {});
    expect(tidied(plan, ['EC', 'BAD'])).toEqual(['ABC', 'DE']);
  });

  it('keeps a move that saves change-over alone', () => {
    expect(tidied(planOf(['AbC'], {}), ['ACb'])).toEqual(['ACb']);
    expect(tidied(planOf(['ACb'], {}), ['AbC'])).toEqual(['ACb']);
  });

  it('stops when told', () => {
    expect(tidied(planOf(['ABC'], {}), ['CBA'], () => true)).toEqual(['CBA']);
  });

  it('is never worse, whatever was proposed', () => {
    // Every order of five steps over two cells, against the evaluator as the independent judge.
    const plan = planOf(['AbC', 'dE'], { A: 100, b: 60, C: 90, d: 50, E: 40 });
    const problem = { ...plan.problem, setupMin: setUpTable(plan) };
    const worth = (lanes: string[]) => {
      const split = lanes.map((lane) => [...lane]);
      const walked = evaluateOrder({ problem, lanes: split });
      if (!walked.ok) throw new Error(walked.refusal.allowed);
      return walked.cost * 1_000 + changeOverIn(plan)(split);
    };
    for (const order of ordersOf([...'AbCdE'])) {
      const at = order.charCodeAt(0) % 4;
      const proposed = [order.slice(0, at), order.slice(at)];
      expect(worth(tidied(plan, proposed)), order).toBeLessThanOrEqual(worth(proposed));
    }
  });
});

function ordersOf(letters: string[]): string[] {
  if (letters.length === 0) return [''];
  return letters.flatMap((letter, at) =>
    ordersOf(letters.toSpliced(at, 1)).map((rest) => letter + rest),
  );
}
