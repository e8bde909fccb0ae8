import { planning, type OrderMove, type OrderProposal } from '@tackboard/contract';
import { SvelteSet } from 'svelte/reactivity';
import { Act } from '../api/act.svelte.js';
import { call } from '../api/call.js';
import { ApiRefusal } from '../api/refusal.js';
import { m } from '../paraglide/messages.js';
import { moveKey } from './proposal-words.js';

/** Often enough to see a better order come, seldom enough to leave the service in peace. */
const pauseMs = 600;

/** A proposed order of work on the board: asked for, watched while it gets better, taken or left. */
export class ProposalDesk {
  readonly act = new Act();
  /** Read aloud once moves have been made. */
  announcement = $state('');
  proposal = $state.raw<OrderProposal | null>(null);
  /** Why the proposal could not be read again. */
  lost = $state.raw<Error | null>(null);
  readonly #chosen = new SvelteSet<string>();
  readonly chosen = $derived(
    this.proposal?.moves.filter((move) => this.#chosen.has(moveKey(move))) ?? [],
  );
  readonly #reloadBoard: () => Promise<void>;

  constructor(reloadBoard: () => Promise<void>) {
    this.#reloadBoard = reloadBoard;
    $effect(() => {
      // A reading that did not come is tried again.
      void this.lost;
      if (this.proposal?.state !== 'searching') return;
      const { id } = this.proposal;
      const timer = setTimeout(() => void this.#read(id), pauseMs);
      return () => clearTimeout(timer);
    });
  }

  async #read(proposalId: string): Promise<void> {
    try {
      const read = await call(planning.get, { params: { proposalId } });
      if (this.proposal?.id === proposalId && this.proposal.state === 'searching')
        this.proposal = read;
      this.lost = null;
    } catch (error) {
      // The service does not know it any more: there is nothing to wait for.
      if (error instanceof ApiRefusal && this.proposal)
        this.proposal = { ...this.proposal, state: 'failed', trouble: error.message };
      else this.lost = error instanceof Error ? error : new Error(String(error));
    }
  }

  isChosen(move: OrderMove): boolean {
    return this.#chosen.has(moveKey(move));
  }

  choose(move: OrderMove, chosen: boolean): void {
    if (chosen) this.#chosen.add(moveKey(move));
    else this.#chosen.delete(moveKey(move));
  }

  async ask(): Promise<void> {
    this.announcement = '';
    this.lost = null;
    this.#chosen.clear();
    const proposal = await this.act.send(planning.propose, {});
    if (proposal !== null) this.proposal = proposal;
  }

  async stop(): Promise<void> {
    const { proposal } = this;
    if (proposal === null) return;
    const stopped = await this.act.send(planning.stop, { params: { proposalId: proposal.id } });
    if (stopped !== null) this.proposal = stopped;
  }

  /** Answers whether the moves were made; a refusal leaves the proposal on the screen. */
  async accept(moves: readonly OrderMove[]): Promise<boolean> {
    const { proposal } = this;
    if (proposal === null || moves.length === 0) return false;
    const made = await this.act.send(planning.accept, {
      params: { proposalId: proposal.id },
      body: {
        round: proposal.round,
        moves: moves.flatMap(({ steps }) => steps.map(({ jobStepId }) => jobStepId)),
      },
    });
    await this.#reloadBoard();
    if (made === null) return false;
    this.announcement = m.proposal_accepted({ count: made.moved });
    this.proposal = null;
    return true;
  }

  /** Leaves the queues as they are. */
  async leave(): Promise<void> {
    if (this.proposal?.state === 'searching') await this.stop();
    this.act.clear();
    this.lost = null;
    this.proposal = null;
  }
}
