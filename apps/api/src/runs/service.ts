import type { Run } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import type { PolicyService } from '../policy/service.js';
import type { QueueService } from '../queue/service.js';
import { notFound } from '../refusal.js';
import { createCount } from './count.js';
import { createHandOver } from './hand-over.js';
import { createNote } from './note.js';
import { createPull } from './pull.js';
import { createPutDown } from './put-down.js';
import { createRead } from './reading.js';
import { createStandstill } from './standstill.js';
import { runsReader } from './store.js';

export type RunsService = ReturnType<typeof createRunsService>;

/** Work at the cells: from the pull to the put-down. */
export function createRunsService(
  foundation: Foundation,
  { policy, queue }: { readonly policy: PolicyService; readonly queue: QueueService },
) {
  const read = runsReader(foundation.database.reader);
  return {
    async run(runId: string): Promise<Run> {
      const run = await read.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      return run.view;
    },
    async ofJob(jobId: string): Promise<{ runs: Run[] }> {
      const found = await read.ofJob(jobId);
      if (found === null) throw notFound('job', jobId, 'params.jobId');
      return { runs: found.map(({ view }) => view) };
    },
    pull: createPull(foundation, queue),
    count: createCount(foundation),
    ...createStandstill(foundation),
    read: createRead(foundation, policy),
    note: createNote(foundation),
    handOver: createHandOver(foundation, queue),
    putDown: createPutDown(foundation),
  };
}
