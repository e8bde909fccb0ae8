import type { Job } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import { appendJob, currentJob, refuseEnded, writtenJob } from './job-service.js';
import { loadLineFacts, planSteps } from './line-plan.js';
import { ordersWriter, type JobRecord } from './store.js';
import { queueSteps } from './take-service.js';

/** The comparison of an ordered with a released revision, signed by the coordinator. */
export function releaseService({ uow, timeZone }: Foundation) {
  return {
    /**
     * The job is made to the revision released now; its steps are queued anew where that is another one, be it
     * that the other was ordered or that it was released while the job waited.
     */
    async releaseJob(
      actor: Actor,
      id: string,
      input: { changeNote: string; expectedVersion: number },
    ): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        refuseEnded(job);
        const revision = await moveToReleased(unit, job);
        await store.setJob(
          { id, version: job.version },
          { released: true, holdReason: null, revisionId: revision.id },
        );
        appendJob(unit, job, {
          type: 'job.released',
          before: { released: false, holdReason: job.holdReason, revision: job.revision },
          after: { released: true, revision: revision.label, ordered: job.orderedRevision },
          reason: input.changeNote,
          meaning: 'checked',
        });
        return writtenJob(store, id, today);
      });
    },
  };
}

async function moveToReleased(unit: Unit, job: JobRecord): Promise<{ id: string; label: string }> {
  const facts = await loadLineFacts(unit.tx, [job.partId]);
  const released = facts.parts.get(job.partId)?.released ?? null;
  if (released === null) {
    throw new Refusal(
      'NOT_NOW',
      `Part ${job.partNumber} has no released revision. Release one, then the job.`,
    );
  }
  if (released.id === job.revisionId) {
    if (!job.released) return released;
    throw new Refusal('NOT_NOW', `Job ${job.number} is released already.`);
  }
  const batch = { quantity: job.quantity, cells: [] };
  const steps = planSteps(released.steps, batch, facts, 'body');
  if ((await ordersWriter(unit.tx).removeUnstartedSteps(job.id)) < job.steps.length) {
    throw new Refusal(
      'NOT_NOW',
      `Work on job ${job.number} has begun in revision ${job.revision}, and revision ${released.label} is released now. Close the job short and take the rest as a new order.`,
    );
  }
  await queueSteps(unit, job.id, steps);
  return released;
}
