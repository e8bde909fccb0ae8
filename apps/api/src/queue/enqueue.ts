import { v7 as newId } from 'uuid';
import type { Unit } from '../db/unit-of-work.js';
import { rankGap } from './rank.js';
import { writer } from './store.js';

export interface StepToQueue {
  readonly stepId: string;
  readonly number: number;
  readonly cellId: string;
  readonly plannedMin: number;
  /** The first step of a job waits; the later ones are blocked until the one before is done. */
  readonly state: 'waiting' | 'blocked';
}

/** Puts the steps of a job at the end of the run queues of their cells; answers their ids in the same order. */
export async function enqueue(
  unit: Unit,
  job: { jobId: string; steps: readonly StepToQueue[] },
): Promise<string[]> {
  const store = writer(unit.tx);
  const last = await store.lastRanks([...new Set(job.steps.map(({ cellId }) => cellId))]);
  const rows = job.steps.map((step) => {
    const rank = (last.get(step.cellId) ?? 0) + rankGap;
    last.set(step.cellId, rank);
    return { ...step, id: newId(), jobId: job.jobId, rank };
  });
  await store.addSteps(rows);
  for (const { id, cellId, ...row } of rows) {
    const { jobId, stepId, number, plannedMin, state } = row;
    unit.append({
      type: 'jobStep.queued',
      subjectType: 'jobStep',
      subjectId: id,
      version: 1,
      cellId,
      after: { jobId, stepId, number, plannedMin, state },
    });
  }
  return rows.map(({ id }) => id);
}
