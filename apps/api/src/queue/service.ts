import type { Board, CellView, ReadyLine, SetUpCard } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { openOn } from '../assignments/open.js';
import { shopDay } from '../clock.js';
import type { PolicyService } from '../policy/service.js';
import { notFound } from '../refusal.js';
import { createAssessment } from './assess.js';
import { createChanges } from './changes.js';
import type { LoadFacts, PersonFacts } from './facts.js';
import { laneOn } from './lane.js';
import { createMoves } from './move.js';
import { reader, writer } from './store.js';

export type QueueService = ReturnType<typeof createQueueService>;

/** The run queues: what waits where, what is next at a cell and why. */
export function createQueueService(
  foundation: Foundation,
  { policy }: { readonly policy: PolicyService },
) {
  const { database, shared, clock, timeZone } = foundation;
  const read = reader(database.reader);
  const assessment = createAssessment(foundation, policy);
  const changes = createChanges(foundation);

  async function readBoard(): Promise<Board> {
    // Read before the rows: an event that comes between is then heard again, never missed.
    const lastSeq = await read.lastSeq();
    const now = clock.now();
    const today = shopDay(now, timeZone);
    const lanes = await read.lanes();
    return {
      ...{ asOf: now.toISOString(), lastSeq },
      lanes: lanes.map((lane) => laneOn(lane, today)),
      toClear: await openOn(database.reader).openByJob(today),
    };
  }

  return {
    ...assessment,
    ...createMoves(foundation),
    ...changes,
    /** Every run queue as an open unit of work sees it. */
    async lanesWithin({ tx }: Unit) {
      return writer(tx).lanes();
    },
    /** The open steps of one cell in their order; null for a cell that is not in use. */
    async lane(cellId: string) {
      const [lane] = await read.lanes(cellId);
      return lane ?? null;
    },
    async step(jobStepId: string) {
      return read.step(jobStepId);
    },
    /** Whether a lot would do for the step that is held at a cell: the line that stops it, or null. */
    async refusesLoad(cellId: string, load: LoadFacts): Promise<ReadyLine | null> {
      const [lane] = await read.lanes(cellId);
      const held = lane?.steps.find(({ state }) => state === 'held');
      if (held === undefined) return null;
      return assessment.stoppedBy(held.id, load);
    },
    board: async () => shared('board', readBoard),
    async cell(actor: Actor, cellId: string): Promise<CellView> {
      const [lane] = await read.lanes(cellId);
      if (lane === undefined) throw notFound('cell', cellId, 'params.cellId');
      const now = clock.now();
      const person = welderOf(actor);
      const heldId = lane.steps.find(({ state }) => state === 'held')?.id;
      const [held] = heldId === undefined ? [] : await assessment.assess([heldId], null);
      const { next, passedOver } = await assessment.firstReady(lane.steps, person);
      const shown = [held, next].flatMap((each) => each?.facts.record.jobId ?? []);
      return {
        asOf: now.toISOString(),
        changes: await changes.changesOf(shown),
        lane: laneOn(lane, shopDay(now, timeZone)),
        held: held === undefined ? null : await assessment.cardFor(held),
        next: next === null ? null : await assessment.cardFor(next),
        passedOver,
      };
    },
    async card(actor: Actor, jobStepId: string): Promise<SetUpCard> {
      const [found] = await assessment.assess([jobStepId], welderOf(actor));
      if (found === undefined) throw notFound('queued step', jobStepId, 'params.jobStepId');
      return assessment.cardFor(found);
    },
  };
}

/** The person is judged where they would weld; somebody from the office looks at the queue as it stands. */
function welderOf({ person }: Actor): PersonFacts | null {
  return person?.role === 'welder' ? person : null;
}
