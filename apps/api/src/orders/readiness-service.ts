import type { JobReadiness, LateJob } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { promiseOf } from './promise.js';
import { promiseReader } from './promise-store.js';
import { jobFinishes } from './queue-walk.js';
import { endOfDay, instantOf, minuteOf, readQueues } from './shop-queues.js';
import { ordersReader } from './store.js';
import type { OtherAreas } from './surroundings.js';

/** What open jobs still lack, and which of them will be late. */
export function readinessService(foundation: Foundation, others: OtherAreas) {
  const { database, clock, timeZone } = foundation;
  const store = ordersReader(database.reader);
  const past = promiseReader(database.reader);

  return {
    /** The run queues walked through the calendars, which are read for so many days or more. */
    queues: async (leastDays: number) => readQueues(others, { now: clock.now(), leastDays }),

    async readiness(id: string): Promise<JobReadiness> {
      const job = await store.job(id);
      if (job === null) throw notFound('job', id, 'params.jobId');
      const open = job.steps.filter(({ state }) => state !== 'done' && state !== 'cancelled');
      const judged = await others.queue.assess(
        open.map((step) => step.id),
        null,
      );
      const { lanes, times } = await readQueues(others, { now: clock.now() });
      // What is welded and waits for somebody else is finished as far as the queues go.
      const queued = jobFinishes(lanes, times).get(id) ?? null;
      const finishMin = open.length === 0 ? minuteOf(clock.now()) : queued;
      const ended = job.state !== 'waiting' && job.state !== 'running';
      return {
        steps: judged.map(({ facts, readiness }) => ({
          jobStepId: facts.record.id,
          stepNumber: facts.record.stepNumber,
          stepName: facts.record.stepName,
          cellCode: facts.cell.code,
          ready: readiness.ready,
          lines: [...readiness.lines],
        })),
        promise: ended
          ? null
          : promiseOf({
              ...{ finishMin, dueOn: job.dueOn, timeZone },
              outside: job.outside?.open === true ? job.outside : null,
              ofPart: await past.ended({ partId: job.partId }),
              ofCell: await past.ended({ cellId: job.steps.at(-1)?.cellId ?? '' }),
            }),
        changes: ended ? [] : await others.queue.changesOf([id]),
      };
    },

    async late(): Promise<{ jobs: LateJob[] }> {
      const { lanes, times, steps } = await readQueues(others, { now: clock.now() });
      const jobs = new Map([...steps.values()].map((step) => [step.jobId, step]));
      const finishes = [...jobFinishes(lanes, times)];
      const late = finishes.flatMap(([jobId, weldedMin]): LateJob[] => {
        const step = jobs.get(jobId);
        if (step === undefined) return [];
        const { jobNumber: number, customerName, partNumber, quantity, dueOn, weldBy } = step;
        const dueMin = endOfDay(dueOn, timeZone);
        const awayMin = dueMin - endOfDay(weldBy, timeZone);
        const finishMin = weldedMin === null ? null : weldedMin + awayMin;
        const lateMin = finishMin === null ? null : finishMin - dueMin;
        if (lateMin !== null && lateMin <= 0) return [];
        const finishAt = instantOf(finishMin);
        return [
          { ...{ jobId, number, customerName, partNumber, quantity, dueOn }, finishAt, lateMin },
        ];
      });
      return { jobs: late.toSorted((a, b) => (b.lateMin ?? Infinity) - (a.lateMin ?? Infinity)) };
    },
  };
}
