import type { OrderProposal, PlannedChangeOver } from '@tackboard/contract';
import type { OrderMessage } from '../tasks/order-messages.js';
import { startOrderThread, type OrderThread } from '../tasks/order-search.js';
import type { FoundOrder } from './found-order.js';
import type { PreparedPlan } from './plan.js';
import { changeOversOf } from './planned-change-overs.js';
import { inWords, moveView, noteWords, type Names } from './words.js';

/** How long a better order is looked for when nobody stops it. */
const limitMs = 15_000;
/** The same queues give the same proposal. */
const seed = 1;
/** Older proposals have long been overtaken by the work itself. */
const keptProposals = 10;

export interface KeptProposal extends PreparedPlan {
  readonly id: string;
  readonly askedAt: Date;
  readonly names: Names;
  state: OrderProposal['state'];
  /** Every order that was told, so that what somebody looked at can still be accepted. */
  readonly rounds: FoundOrder[];
  /** Of the last round; of today's lanes while there is none. */
  changeOvers: readonly PlannedChangeOver[];
  proven: boolean;
  searchNotes: readonly string[];
  trouble: string | null;
}

export type NewProposal = Pick<KeptProposal, 'id' | 'askedAt' | 'names' | 'plan' | 'notes'>;

/** The proposals of the shop, kept while the service runs; one search at a time. */
export function createProposals() {
  const kept = new Map<string, KeptProposal>();
  const threads = createThreads();
  let running: { readonly proposal: KeptProposal; readonly thread: OrderThread } | null = null;

  function release(): void {
    if (running === null) return;
    void threads.end(running.thread);
    running = null;
  }

  function stop(proposal: KeptProposal): void {
    if (running?.proposal !== proposal) return;
    proposal.state = 'stopped';
    release();
  }

  function close(proposal: KeptProposal, state: OrderProposal['state'], trouble: string | null) {
    proposal.state = state;
    proposal.trouble = trouble;
    if (running?.proposal === proposal) release();
  }

  function hear(proposal: KeptProposal, message: OrderMessage): void {
    if (message.kind === 'ended') close(proposal, 'done', null);
    else if (message.kind === 'refused')
      close(proposal, 'failed', inWords(message.refusal.allowed, proposal.names));
    else {
      proposal.rounds.push(message.found);
      proposal.changeOvers = changeOversOf(proposal.plan, message.found.lanes, proposal.names);
      proposal.proven = message.proven;
      proposal.searchNotes = noteWords(message.notes, proposal.names);
    }
  }

  /** Begins to search once `prepare` has its answer; a thread is made ready meanwhile. */
  async function begin(prepare: () => Promise<NewProposal>): Promise<KeptProposal> {
    const thread = threads.start();
    try {
      return beginIn(thread, await prepare());
    } catch (error) {
      await threads.end(thread);
      throw error;
    }
  }

  function beginIn(thread: OrderThread, asked: NewProposal): KeptProposal {
    const proposal = keptFrom(asked);
    if (running !== null) stop(running.proposal);
    kept.set(proposal.id, proposal);
    for (const id of [...kept.keys()].slice(0, -keptProposals)) kept.delete(id);
    running = { proposal, thread };
    thread.begin(
      { plan: proposal.plan, seed, limitMs },
      {
        told: (message) => hear(proposal, message),
        broke: ({ message }) =>
          close(
            proposal,
            'failed',
            `The search for a better order broke off (${message}). The run queues are as they were: ask again.`,
          ),
      },
    );
    return proposal;
  }

  return {
    begin,
    stop,
    get: (id: string) => kept.get(id) ?? null,
    /** Ends what runs and waits until it is gone. */
    async end(): Promise<void> {
      if (running !== null) stop(running.proposal);
      await threads.endAll();
    },
  };
}

function keptFrom(asked: NewProposal): KeptProposal {
  return {
    ...asked,
    ...{ state: 'searching', rounds: [], proven: false, searchNotes: [], trouble: null },
    changeOvers: changeOversOf(asked.plan, asked.plan.problem.today, asked.names),
  };
}

/** The threads that are not gone yet, also those whose task is still being prepared. */
function createThreads() {
  const alive = new Set<OrderThread>();
  async function end(thread: OrderThread): Promise<void> {
    await thread.end();
    alive.delete(thread);
  }
  return {
    start(): OrderThread {
      const thread = startOrderThread();
      alive.add(thread);
      return thread;
    },
    end,
    async endAll(): Promise<void> {
      await Promise.all([...alive].map(end));
    },
  };
}

export function proposalView(proposal: KeptProposal): OrderProposal {
  const { id, state, askedAt, rounds, names, proven, notes, searchNotes, trouble } = proposal;
  const best = rounds.at(-1) ?? null;
  return {
    ...{ id, state, proven, trouble },
    askedAt: askedAt.toISOString(),
    round: rounds.length,
    todayCost: best?.todayCost ?? null,
    proposedCost: best?.proposedCost ?? null,
    moves: best?.moves.map((move) => moveView(move, names)) ?? [],
    changeOvers: [...proposal.changeOvers],
    notes: [...notes, ...searchNotes],
  };
}
