import { learnChangeOvers, type LearntChangeOver, type MeasuredChangeOver } from '@tackboard/calc';
import { changedBetween, type KeptSetUp } from './change-over.js';

/** A run at a cell as far as the change-over before it is told by it. */
export interface RunAtCell {
  readonly cellId: string;
  readonly stepId: string;
  /** Minutes as said at the end of the run; 0 where nobody said any. */
  readonly setUpMin: number;
  /** Minutes that were stopped as setting up. */
  readonly stoppedMin: number;
  /** As frozen when the step was pulled; null where none was kept. */
  readonly setUp: KeptSetUp | null;
}

/**
 * What change-overs took at each cell, from its runs in the order in which they began. Two runs of one step need no
 * change-over between them, and a run without a stated or stopped time of setting up was not measured.
 */
export function learntAt(runs: readonly RunAtCell[]): Map<string, readonly LearntChangeOver[]> {
  const last = new Map<string, RunAtCell>();
  const measured = new Map<string, MeasuredChangeOver[]>();
  for (const run of runs) {
    const before = last.get(run.cellId);
    last.set(run.cellId, run);
    const minutes = Math.max(run.setUpMin, run.stoppedMin);
    if (before === undefined || before.stepId === run.stepId || minutes <= 0) continue;
    if (before.setUp === null || run.setUp === null) continue;
    const changed = changedBetween(before.setUp, run.setUp);
    if (changed.length === 0) continue;
    const known = measured.get(run.cellId) ?? [];
    known.push({ changed, minutes });
    measured.set(run.cellId, known);
  }
  return new Map(
    [...measured].map(([cellId, each]) => {
      const answer = learnChangeOvers({ measured: each });
      return [cellId, answer.ok ? answer.learnt : []];
    }),
  );
}
