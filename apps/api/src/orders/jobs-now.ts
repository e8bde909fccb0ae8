import { keyOf, missingOf } from '../assignments/missing.js';
import type { JobNow } from '../assignments/settle.js';
import type { Foundation } from '../foundation.js';
import { cellPlanReader } from './cell-plan-store.js';
import { judgeSteps } from './line-notes.js';
import { planReader } from './plan-store.js';
import { readQueues } from './shop-queues.js';
import { ordersReader, type JobRecord } from './store.js';
import { surroundings, type OtherAreas, type StepAtCell } from './surroundings.js';

const made: readonly JobRecord['steps'][number]['state'][] = ['done', 'cancelled'];

/** What jobs lack now, by the notes that were written when they were ordered. */
export function jobsNowService(foundation: Foundation, others: OtherAreas) {
  const { database, clock } = foundation;
  return {
    async jobsNow(ids: readonly string[]): Promise<Map<string, JobNow>> {
      const jobs = await ordersReader(database.reader).jobs(ids);
      const revisions = await planReader(database.reader).revisionSteps(
        jobs.map(({ revisionId }) => revisionId),
      );
      const cells = new Map(
        (await cellPlanReader(database.reader).cells()).map((cell) => [cell.id, cell]),
      );
      const found = jobs.map((job) => {
        const open = job.steps.filter(({ state }) => !made.includes(state));
        const steps = open.flatMap(({ stepId, cellId }): StepAtCell[] => {
          const step = revisions.get(job.revisionId)?.steps.find(({ id }) => id === stepId);
          const cell = cells.get(cellId);
          return step === undefined || cell === undefined ? [] : [{ step, cell }];
        });
        return { job, open, steps, coded: revisions.get(job.revisionId)?.coded ?? false };
      });
      const around = await surroundings(foundation, others, {
        steps: found.flatMap(({ steps }) => steps),
        now: clock.now(),
        queues: await readQueues(others, { now: clock.now() }),
      });
      return new Map(
        found.map(({ job, open, steps, coded }) => {
          const rest = Math.max(1, job.quantity - Math.max(0, ...open.map((one) => one.goodCount)));
          const notes = judgeSteps(steps, { quantity: rest, coded }, around);
          const judged = new Set(steps.map(({ step }) => step.number));
          return [job.id, jobNow(job, { open, missing: missingOf(notes).map(keyOf), judged })];
        }),
      );
    },
  };
}

function jobNow(
  job: JobRecord,
  found: {
    readonly open: JobRecord['steps'];
    readonly missing: readonly string[];
    readonly judged: ReadonlySet<number>;
  },
): JobNow {
  const revision = keyOf({ stepNumber: null, topic: 'revision' });
  return {
    ended: job.state !== 'waiting' && job.state !== 'running',
    openSteps: new Set(found.open.map(({ number }) => number)),
    unknownSteps: new Set(
      found.open.map(({ number }) => number).filter((number) => !found.judged.has(number)),
    ),
    missing: new Set([...found.missing, ...(job.released ? [] : [revision])]),
  };
}
