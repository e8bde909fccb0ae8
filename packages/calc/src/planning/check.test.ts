import { describe, expect, it } from 'vitest';
import { planOf } from '../testing/plans.js';
import { planStepsMax } from './check.js';
import type { PlanProblem, PlanStep } from './problem.js';
import { evaluateOrder, planOrder } from './search.js';
import { stopAfterSlices } from './stop.js';

const step = (id: string, more: Partial<PlanStep> = {}): PlanStep => ({
  id,
  customer: 'A',
  weight: 1,
  dueMin: 50,
  releaseMin: 0,
  processingMin: [10, null],
  ...more,
});

const cells = [
  { id: 'robot 1', freeFromMin: 0 },
  { id: 'booth 2', freeFromMin: 0 },
];

function answer(problem: PlanProblem) {
  return planOrder({ problem, seed: 1, shouldStop: stopAfterSlices(1) });
}

const refusals: [string, PlanProblem, string, RegExp][] = [
  ['no step', { cells, steps: [] }, 'steps', /no step/],
  ['no cell', { cells: [], steps: [step('a')] }, 'cells', /one cell/],
  ['a step twice', { cells, steps: [step('a'), step('a')] }, 'steps', /"a" is there twice/],
  [
    'a step that no cell can do',
    { cells, steps: [step('a', { processingMin: [null, null] })] },
    'steps[0].processingMin',
    /"a" can be done at no cell/,
  ],
  [
    'a step whose only cell has no hours',
    { cells: [{ ...cells[0]!, hours: [] }, cells[1]!], steps: [step('a')] },
    'steps[0].processingMin',
    /no cell that has hours/,
  ],
  [
    'zero minutes',
    { cells, steps: [step('a', { processingMin: [0, null] })] },
    'steps[0].processingMin',
    /more than 0 minutes/,
  ],
  [
    'minutes that are no number',
    { cells, steps: [step('a', { processingMin: [NaN, 1] })] },
    'steps[0].processingMin',
    /more than 0 minutes/,
  ],
  [
    'too few entries',
    { cells, steps: [step('a', { processingMin: [5] })] },
    'steps[0].processingMin',
    /2 in all/,
  ],
  [
    'a weight below zero',
    { cells, steps: [step('a', { weight: -1 })] },
    'steps[0].weight',
    /0 or more/,
  ],
  [
    'a due time that is no number',
    { cells, steps: [step('a', { dueMin: NaN })] },
    'steps[0].dueMin',
    /number of minutes/,
  ],
  [
    'a loop',
    { cells, steps: [step('a', { after: ['b'] }), step('b', { after: ['a'] }), step('c')] },
    'steps.after',
    /"a", "b" wait for each other/,
  ],
  [
    'an unknown step to wait for',
    { cells, steps: [step('a', { after: ['z'] })] },
    'steps[0].after',
    /not in the plan/,
  ],
  [
    'hours out of order',
    { cells: [{ ...cells[0]!, hours: [{ fromMin: 9, toMin: 5 }] }, cells[1]!], steps: [step('a')] },
    'cells[0].hours',
    /"robot 1"/,
  ],
  [
    'a set-up table of the wrong size',
    { cells, steps: [step('a')], setupMin: [[[1]], [[1]]] },
    'setupMin[0]',
    /2 rows/,
  ],
  [
    'a set-up below zero',
    {
      cells,
      steps: [step('a')],
      setupMin: [
        [[-1], [0]],
        [[0], [0]],
      ],
    },
    'setupMin[0][0][0]',
    /0 or more/,
  ],
  [
    'held work without today',
    { cells, steps: [step('a', { hold: 'pinned' })] },
    'today',
    /today's lanes are needed/,
  ],
  [
    'started work behind other work',
    { cells, steps: [step('a'), step('b', { hold: 'started' })], today: [['a', 'b'], []] },
    'today',
    /stands first/,
  ],
  [
    'lanes that hold each other up',
    { cells, steps: [step('a', { after: ['b'] }), step('b')], today: [['a', 'b'], []] },
    'today',
    /wait for each other/,
  ],
  [
    'a step missing from the lanes',
    { cells, steps: [step('a'), step('b')], today: [['a'], []] },
    'today',
    /"b" is in no lane/,
  ],
  [
    'a step at a cell that cannot do it',
    { cells, steps: [step('a')], today: [[], ['a']] },
    'today',
    /cannot do it/,
  ],
];

describe('a plan that cannot be made is answered in words', () => {
  it.each(refusals)('%s', (_, problem, argument, words) => {
    const result = answer(problem);
    if (result.ok) throw new Error('it was planned');
    expect(result.refusal.argument).toBe(argument);
    expect(result.refusal.allowed).toMatch(words);
  });

  it('says how many steps are too many', () => {
    const result = answer(planOf({ seed: 1, steps: 5_000, cells: 1 }));
    expect(result).toMatchObject({ ok: false, refusal: { argument: 'steps', given: 5_000 } });
    expect(!result.ok && result.refusal.allowed).toContain(String(planStepsMax));
  });
});

describe('a plan that can be made all the same', () => {
  it('names what is due before it can begin', () => {
    const result = answer({ cells, steps: [step('a', { dueMin: 5, releaseMin: 30 })] });
    // 30 + 10 = 40, 35 late.
    expect(result).toMatchObject({ ok: true, cost: 35 });
    expect(result.ok && result.notes[0]).toMatchObject({ code: 'dueBeforeRelease', about: 'a' });
  });

  it('names a cell without hours and plans around it', () => {
    const result = answer({
      cells: [{ ...cells[0]!, hours: [] }, cells[1]!],
      steps: [step('a', { processingMin: [5, 9] })],
    });
    expect(result).toMatchObject({ ok: true, lanes: [[], ['a']] });
    expect(result.ok && result.notes[0]).toMatchObject({
      code: 'cellWithoutHours',
      about: 'robot 1',
    });
  });

  it('takes minutes with fractions as they are', () => {
    const problem = { cells, steps: [step('a', { dueMin: 0.1, processingMin: [0.3, null] })] };
    const result = evaluateOrder({ problem, lanes: [['a'], []] });
    expect(result.ok && result.cost).toBeCloseTo(0.2, 12);
  });
});
