import type { Unit } from '../db/unit-of-work.js';
import { ordersWriter } from './store.js';

/**
 * Finishes a job once its steps are done, it is back from others and no NCR or hold is open: done when the batch is whole, closed short when parts
 * are lacking. A job that had ended before is looked at again: an NCR may have taken parts out of it since.
 */
export async function finishWhenReady(unit: Unit, jobId: string, at: Date): Promise<void> {
  const store = ordersWriter(unit.tx);
  const job = await store.job(jobId);
  if (job === null || job.state === 'cancelled') return;
  if (job.openNcrs.length > 0 || job.openHolds.length > 0 || job.outside?.open === true) return;
  if (job.steps.some(({ state }) => state !== 'done' && state !== 'cancelled')) return;
  const goodCount = job.steps.findLast((step) => step.state === 'done')?.goodCount ?? 0;
  const short = goodCount < job.quantity;
  const state = short ? ('closedShort' as const) : ('done' as const);
  if (job.state === state) return;
  await store.setJob(
    { id: job.id, version: job.version },
    { state, finishedAt: job.finishedAt ?? at },
  );
  unit.append({
    type: short ? 'job.closedShort' : 'job.done',
    subjectType: 'job',
    subjectId: jobId,
    version: job.version + 1,
    after: { state, goodCount, quantity: job.quantity },
  });
}
