import { acceptMoves } from '@tackboard/calc';
import type {
  BodyOf,
  CellHours,
  Lane,
  OrderProposal,
  planning,
  ReplyOf,
} from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { CellsService } from '../cells/service.js';
import type { Foundation } from '../foundation.js';
import type { PolicyService } from '../policy/service.js';
import { stepWords } from '../queue/lane.js';
import type { QueueService } from '../queue/service.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { changedSteps, newPlaces, type StandingLane } from './accepted.js';
import { openMinutes, plannedHours } from './cell-hours.js';
import type { FoundMove, FoundOrder } from './found-order.js';
import { learntAt } from './measured.js';
import { preparePlan, type Plan } from './plan.js';
import { createProposals, proposalView, type KeptProposal, type NewProposal } from './proposals.js';
import { planningReader } from './store.js';
import { inWords, namesOf, reasonFor } from './words.js';

export type PlanningService = ReturnType<typeof createPlanningService>;

interface OtherAreas {
  readonly cells: CellsService;
  readonly policy: Pick<PolicyService, 'table'>;
  readonly queue: QueueService;
}

type AcceptInput = BodyOf<typeof planning.accept>;
/** How far the calendars are read at first, and at most where the run queues are longer. */
const horizonDays = { first: 28, longest: 366 } as const;
/** Change-overs that are older say little about how a cell is changed over today. */
const learntDays = 180;
/** Change-overs and work from other cells come on top of what waits in a queue today. */
const roomFactor = 2;

/** Proposes an order of work for all run queues, and puts the chosen moves of it into effect. */
export function createPlanningService(foundation: Foundation, others: OtherAreas) {
  const { database, clock, newId, timeZone } = foundation;
  const proposals = createProposals();
  const found = (id: string): KeptProposal => {
    const proposal = proposals.get(id);
    if (proposal === null) throw notFound('proposal', id, 'params.proposalId');
    return proposal;
  };

  async function prepare(): Promise<NewProposal> {
    const { lanes } = await others.queue.board();
    const now = clock.now();
    const since = new Date(now.getTime() - learntDays * 86_400_000);
    const { plan, notes } = preparePlan({
      ...{ lanes, now, timeZone },
      steps: await planningReader(database.reader).openSteps(),
      cells: (await others.cells.list()).cells,
      certificates: await others.queue.certificateFacts(),
      policy: await others.policy.table(),
      hours: await hoursFor(lanes, others.cells, now),
      learnt: learntAt(await planningReader(database.reader).runsSince(since)),
    });
    if (plan.problem.steps.length === 0) {
      const why = notes.join(' ') || 'No step waits in a run queue.';
      throw new Refusal('NOT_NOW', `There is nothing to put in order. ${why}`);
    }
    return { id: newId(), askedAt: now, names: namesOf(lanes), plan, notes };
  }

  return {
    /** Answers at once; what is found is read later. */
    async propose(): Promise<OrderProposal> {
      return proposalView(await proposals.begin(prepare));
    },
    get(id: string): OrderProposal {
      return proposalView(found(id));
    },
    stop(id: string): OrderProposal {
      const proposal = found(id);
      proposals.stop(proposal);
      return proposalView(proposal);
    },
    accept: createAccept(foundation, others, { found, stop: proposals.stop }),
    /** Ends a search that runs. */
    close: proposals.end,
  };
}

async function hoursFor(
  lanes: readonly Lane[],
  cells: CellsService,
  now: Date,
): Promise<CellHours[]> {
  const { first, longest } = horizonDays;
  const { cells: hours } = await cells.hours({ days: first });
  const room = Math.min(...lanes.map((lane) => roomIn(hours, lane, now)));
  if (room >= 1) return hours;
  const days = Math.ceil(Math.min(longest, first / room));
  return (await cells.hours({ days })).cells;
}

/** How often the queue of a cell goes into its hours, with room for more; a cell without hours asks for none. */
function roomIn(hours: readonly CellHours[], { cellId, queuedMin }: Lane, now: Date): number {
  const windows = hours.find((cell) => cell.cellId === cellId)?.windows ?? [];
  if (windows.length === 0 || queuedMin === 0) return Infinity;
  const planned = plannedHours(windows, now);
  return (openMinutes(planned) * planned.pace) / (roomFactor * queuedMin);
}

interface Kept {
  found(id: string): KeptProposal;
  stop(proposal: KeptProposal): void;
}

function createAccept({ uow }: Foundation, { queue }: OtherAreas, kept: Kept) {
  return async function accept(
    actor: Actor,
    proposalId: string,
    input: AcceptInput,
  ): Promise<ReplyOf<typeof planning.accept>> {
    const proposal = kept.found(proposalId);
    const { plan, names } = proposal;
    const order = orderOf(proposal, input.round);
    const chosen = chosenMoves(order, input.moves);
    return uow.write(actor, async (unit) => {
      const standing = await queue.lanesWithin(unit);
      mustStandAsPlanned(proposal, standing);
      const accepted = acceptMoves({
        ...{ problem: plan.problem, proposed: order.lanes, accepted: input.moves },
      });
      if (!accepted.ok) throw new Refusal('NOT_NOW', inWords(accepted.refusal.allowed, names));
      const places = newPlaces(
        { cellIds: cellIdsOf(plan), lanes: accepted.lanes, moved: input.moves },
        standing,
      );
      for (const { id, ...place } of places) {
        const move = chosen.get(id);
        await queue.moveWithin(unit, id, { ...place, reason: move ? reasonFor(move) : null });
      }
      unit.afterCommit(() => kept.stop(proposal));
      return { moved: places.length };
    });
  };
}

function cellIdsOf({ problem }: Plan): string[] {
  return problem.cells.map(({ id }) => id);
}

function orderOf({ rounds }: KeptProposal, round: number): FoundOrder {
  const order = rounds[round - 1];
  if (order !== undefined) return order;
  throw refuseField(
    'NOT_FOUND',
    `This proposal has no round ${round}; it has ${rounds.length}. Look at it as it is now and choose again.`,
    'body.round',
    round,
    `1 to ${rounds.length}`,
  );
}

/** The move that each chosen step belongs to; refuses a step that the proposal leaves in its place. */
function chosenMoves({ moves }: FoundOrder, ids: readonly string[]): Map<string, FoundMove> {
  const byStep = new Map(moves.flatMap((move) => move.steps.map(({ id }) => [id, move] as const)));
  const at = ids.findIndex((id) => !byStep.has(id));
  if (at < 0) return byStep;
  throw refuseField(
    'NOT_FOUND',
    `The proposal does not move step ${ids[at]}. Look at it as it is now and choose again.`,
    `body.moves.${at}`,
    ids[at],
    'a step that the proposal moves',
  );
}

function mustStandAsPlanned(
  { plan, names }: KeptProposal,
  standing: readonly StandingLane[],
): void {
  const held = plan.problem.steps.filter(({ hold }) => hold === 'started').map(({ id }) => id);
  const changed = changedSteps(
    { cellIds: cellIdsOf(plan), lanes: plan.problem.today, held: new Set(held) },
    standing,
  );
  if (changed.length === 0) return;
  const steps = changed.flatMap((id) => names.steps.get(id) ?? []);
  const shown = steps.slice(0, 3).map(stepWords).join(', ');
  const more = steps.length > 3 ? ` and ${steps.length - 3} more` : '';
  throw new Refusal(
    'STALE',
    `The run queues have changed since this order was proposed: ${shown}${more} ${steps.length === 1 ? 'is' : 'are'} no longer where the proposal found ${steps.length === 1 ? 'it' : 'them'}. Nothing was moved. Ask for a new proposal.`,
  );
}
