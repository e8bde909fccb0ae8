import { v7 as newId } from 'uuid';
import type { Unit } from '../db/unit-of-work.js';
import { rankFor } from './rank-for.js';
import { rankGap } from './rank.js';
import { writer } from './store.js';

export interface StepToQueue {
  readonly stepId: string;
  readonly number: number;
  readonly cellId: string;
  readonly plannedMin: number;
  /** The queued step to stand before, and the field it was named in; null is the end of the run queue. */
  readonly before: { readonly stepId: string; readonly field: string } | null;
  /** The first step of a job waits; the later ones are blocked until the one before is done. */
  readonly state: 'waiting' | 'blocked';
}

/** Puts the steps of a job into the run queues of their cells; answers their ids in the same order. */
export async function enqueue(
  unit: Unit,
  job: { jobId: string; steps: readonly StepToQueue[] },
): Promise<string[]> {
  const store = writer(unit.tx);
  const ids: string[] = [];
  for (const { before, ...step } of job.steps) {
    const id = newId();
    const { cellId, stepId, number, plannedMin, state } = step;
    const rank =
      before === null
        ? ((await store.lastRanks([cellId])).get(cellId) ?? 0) + rankGap
        : await rankFor(store, id, { cellId, beforeStepId: before.stepId, field: before.field });
    await store.addSteps([{ ...step, id, jobId: job.jobId, rank }]);
    unit.append({
      type: 'jobStep.queued',
      subjectType: 'jobStep',
      subjectId: id,
      version: 1,
      cellId,
      after: {
        ...{ jobId: job.jobId, stepId, number, plannedMin, state },
        ...(before === null ? {} : { beforeStepId: before.stepId }),
      },
    });
    ids.push(id);
  }
  return ids;
}
