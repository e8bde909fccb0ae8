import type { BodyOf, JobChange, orders as routes } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal } from '../refusal.js';
import type { OtherAreas } from './surroundings.js';
import { ordersReader } from './store.js';

type Input = BodyOf<(typeof routes)['acknowledge']>;

/** Somebody at the cell says that the changes of a job are seen, up to the last one they were shown. */
export function changeService({ uow, database }: Foundation, { queue }: OtherAreas) {
  return {
    async acknowledge(
      actor: Actor,
      jobId: string,
      { throughSeq }: Input,
    ): Promise<{ changes: JobChange[] }> {
      const job = await ordersReader(database.reader).job(jobId);
      if (job === null) throw notFound('job', jobId, 'params.jobId');
      const open = await queue.changesOf([jobId]);
      const seen = open.filter(({ seq }) => seq <= throughSeq);
      await uow.write(actor, async (unit) => {
        const last = seen.at(-1);
        if (last === undefined) {
          throw new Refusal('NOT_NOW', `Job ${job.number} has no change that is still to be seen.`);
        }
        unit.append({
          type: 'job.changeAcknowledged',
          subjectType: 'job',
          subjectId: jobId,
          version: job.version,
          ...(actor.tablet === null ? {} : { cellId: actor.tablet.cellId }),
          after: { throughSeq: last.seq, seen: seen.map(({ text }) => text) },
          meaning: 'checked',
        });
        await Promise.resolve();
      });
      return { changes: open.filter(({ seq }) => seq > throughSeq) };
    },
  };
}
