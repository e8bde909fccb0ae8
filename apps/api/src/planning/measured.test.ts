import { describe, expect, it } from 'vitest';
import type { KeptSetUp } from './change-over.js';
import { learntAt, type RunAtCell } from './measured.js';

const setUp = (changes: Partial<KeptSetUp> = {}): KeptSetUp => ({
  ...{ wireItemId: 'w', gasItemId: 'g', torch: '', fixtureId: 'f1', programId: 'p1' },
  ...changes,
});
const one = setUp();
const other = setUp({ fixtureId: 'f2', programId: 'p2' });

let turn = 0;
/** Runs of two steps in turn, so that each is a change of fixture and program. */
const run = (minutes: number, changes: Partial<RunAtCell> = {}): RunAtCell => {
  turn += 1;
  const [stepId, kept] = turn % 2 === 0 ? ['a', one] : (['b', other] as const);
  return { cellId: 'R1', stepId, setUpMin: minutes, stoppedMin: 0, setUp: kept, ...changes };
};
const learnt = (runs: readonly RunAtCell[]) => learntAt(runs).get('R1') ?? [];

describe('change-overs between the runs of a cell', () => {
  it('are told by the second of two runs, and used from three on', () => {
    expect(learnt([run(50), run(12), run(20)])).toEqual([]);
    const [found] = learnt([run(50), run(12), run(20), run(14)]);
    // The first run tells nothing: what stood before it is not known. 12, 14, 20.
    expect(found).toMatchObject({ changed: ['fixture', 'program'], minutes: 14, runs: 3 });
  });

  it('take the longer of what was said and what was stopped as setting up', () => {
    const stopped = { stoppedMin: 18 };
    const [found] = learnt([run(50), run(0, stopped), run(20), run(10, stopped)]);
    expect(found).toMatchObject({ minutes: 18, highMin: 19.6 });
  });

  it('are not told by a run without a time, of the same step, or without a set-up', () => {
    const runs = [run(50), run(12), run(13), run(14)];
    expect(learnt(runs)).toHaveLength(1);
    expect(learnt(runs.map((each, at) => (at === 2 ? { ...each, setUpMin: 0 } : each)))).toEqual(
      [],
    );
    expect(learnt(runs.map((each) => ({ ...each, stepId: 'a' })))).toEqual([]);
    expect(learnt(runs.map((each, at) => (at === 1 ? { ...each, setUp: null } : each)))).toEqual(
      [],
    );
    expect(learnt(runs.map((each) => ({ ...each, setUp: one })))).toEqual([]);
  });

  it('are those of each cell alone', () => {
    const there = (minutes: number) => run(minutes, { cellId: 'R2' });
    expect(learnt([run(50), there(9), run(12), there(9), run(14), there(9)])).toEqual([]);
  });
});
