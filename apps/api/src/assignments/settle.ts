import type { LiveEvent } from '@tackboard/contract';
import { systemActor } from '../actor.js';
import { eventReader } from '../events/store.js';
import type { Foundation } from '../foundation.js';
import { keyOf } from './missing.js';
import { assignmentsReader, assignmentsWriter, type AssignmentRecord } from './store.js';

/** What a job lacks now. */
export interface JobNow {
  readonly ended: boolean;
  /** Numbers of the steps that are still to be made. */
  readonly openSteps: ReadonlySet<number>;
  /** Those of them that cannot be judged: their cell is out of use. */
  readonly unknownSteps: ReadonlySet<number>;
  /** Keys of what is missing. */
  readonly missing: ReadonlySet<string>;
}

export interface JobsNow {
  jobsNow(jobIds: readonly string[]): Promise<ReadonlyMap<string, JobNow>>;
}

/** Changes come in bursts; one look answers them all. */
const waitMs = 250;
const pageSize = 500;
/** What cannot bring anything that was missing: the many small things of a shift. */
const quiet: readonly RegExp[] = [
  /^(session|tablet|order|assignment)\./,
  /^run\.(started|counted|stopped|resumed|noted|read)$/,
  /^(job\.taken|jobStep\.queued)$/,
];

function canMeet({ type }: Pick<LiveEvent, 'type'>): boolean {
  return !quiet.some((pattern) => pattern.test(type));
}

/** Looks at the start and after each change that may have brought what was missing, and closes what it met. */
export function createSettling({ database, uow }: Foundation, orders: JobsNow) {
  const read = assignmentsReader(database.reader);
  const events = eventReader(database.reader);
  let timer: NodeJS.Timeout | null = null;
  let looking: Promise<unknown> = Promise.resolve();
  let seenSeq: number | null = null;

  /** Whether something came since the last look that is worth one; the first look is always. */
  async function news(): Promise<boolean> {
    const from = seenSeq;
    if (from === null) {
      seenSeq = await events.lastSeq();
      return true;
    }
    let found = false;
    for (let page: LiveEvent[] | null = null; page?.length !== 0;) {
      page = await events.after(seenSeq ?? from, pageSize);
      found ||= page.some(canMeet);
      seenSeq = page.at(-1)?.seq ?? seenSeq;
    }
    return found;
  }

  async function settle(): Promise<number> {
    const open = await read.list({});
    if (open.length === 0) return 0;
    const now = await orders.jobsNow([...new Set(open.map(({ jobId }) => jobId))]);
    const over = open.flatMap((row) => {
      const closedAs = endOf(row, now.get(row.jobId));
      return closedAs === null ? [] : [{ row, closedAs }];
    });
    if (over.length === 0) return 0;
    return uow.write(systemActor, async (unit) => {
      const store = assignmentsWriter(unit.tx);
      let closed = 0;
      for (const { row, closedAs } of over) {
        const { id, version, jobNumber, topic } = row;
        // Somebody may have changed or cleared it since: then it is looked at again with the next change.
        if ((await store.byId(id))?.version !== version) continue;
        await store.set({ id, version }, { closedAt: unit.now, closedAs });
        unit.append({
          type: `assignment.${closedAs}`,
          ...{ subjectType: 'assignment', subjectId: id, version: version + 1 },
          before: { closedAs: null },
          after: { closedAs, jobNumber, topic },
        });
        closed += 1;
      }
      return closed;
    });
  }

  async function look(): Promise<void> {
    try {
      if (!(await read.anyOpen())) seenSeq = null;
      else if (await news()) await settle();
    } catch (error) {
      process.emitWarning(error instanceof Error ? error : String(error));
    }
  }

  function lookSoon(): void {
    timer ??= setTimeout(() => {
      timer = null;
      looking = looking.then(look);
    }, waitMs).unref();
  }

  const stop = uow.onCommit(lookSoon);
  lookSoon();

  return {
    settle,
    async close(): Promise<void> {
      stop();
      if (timer !== null) clearTimeout(timer);
      await looking;
    },
  };
}

/** Null while it stays open; what nothing is known of stays as it is. */
function endOf(row: AssignmentRecord, job: JobNow | undefined): 'met' | 'ended' | null {
  // What was found at the start of a run is seen by nobody but a person: it stays until one has seen to it.
  if (job === undefined || row.topic === 'start') return null;
  if (job.ended) return 'ended';
  if (row.stepNumber !== null && !job.openSteps.has(row.stepNumber)) return 'ended';
  if (row.stepNumber !== null && job.unknownSteps.has(row.stepNumber)) return null;
  return job.missing.has(keyOf(row)) ? null : 'met';
}
