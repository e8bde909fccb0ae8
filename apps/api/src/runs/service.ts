import type { Run } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import type { PartsService } from '../parts/service.js';
import type { PeopleService } from '../people/service.js';
import type { PolicyService } from '../policy/service.js';
import type { QueueService } from '../queue/service.js';
import { notFound } from '../refusal.js';
import { createCloseOut } from './close-out.js';
import { createCount } from './count.js';
import { createHandOver } from './hand-over.js';
import { createMemory } from './memory.js';
import { createNote } from './note.js';
import { createPull } from './pull.js';
import { createPutDown } from './put-down.js';
import { createRead } from './reading.js';
import { createSettingChange } from './setting-change.js';
import { createStandstill } from './standstill.js';
import { createStart } from './start.js';
import { runsReader } from './store.js';
import { createToolPoint } from './tool-point.js';

export type RunsService = ReturnType<typeof createRunsService>;

/** Work at the cells: from the pull to the put-down. */
export function createRunsService(
  foundation: Foundation,
  others: {
    readonly parts: PartsService;
    readonly people: PeopleService;
    readonly policy: PolicyService;
    readonly queue: QueueService;
  },
) {
  const { parts, people, policy, queue } = others;
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
    start: createStart(foundation, { parts, people }),
    count: createCount(foundation),
    ...createStandstill(foundation),
    read: createRead(foundation, policy),
    note: createNote(foundation),
    handOver: createHandOver(foundation, queue),
    putDown: createPutDown(foundation, parts),
    ...createMemory(foundation, queue),
    change: createSettingChange(foundation, parts),
    ...createCloseOut(foundation, parts),
    ...createToolPoint(foundation),
  };
}
