import type { ReplyOf, Route } from '@tackboard/contract';
import { call, type CallInput } from '$lib/api/call.js';
import { ApiRefusal, NotReached } from '$lib/api/refusal.js';

/** Typing comes in bursts; the server is asked once it pauses. */
const pauseMs = 400;

/** Asks the server again whenever what is typed changes; the last answer stays while a newer one is on its way. */
export class Suggester<R extends Route> {
  answer = $state.raw<ReplyOf<R> | null>(null);
  /** Why what is typed cannot be read yet, in the server's words. */
  problem = $state('');
  #round = 0;

  /** `typed` is read inside an effect; null asks nothing. */
  constructor(route: R, typed: () => CallInput<R> | null) {
    $effect(() => {
      const input = typed();
      const round = ++this.#round;
      if (input === null) return undefined;
      const timer = setTimeout(() => void this.#ask(route, input, round), pauseMs);
      return () => clearTimeout(timer);
    });
  }

  async #ask(route: R, input: CallInput<R>, round: number): Promise<void> {
    try {
      const answer = await call<Route>(route, input);
      if (round !== this.#round) return;
      this.answer = answer as ReplyOf<R>;
      this.problem = '';
    } catch (error) {
      if (!(error instanceof ApiRefusal || error instanceof NotReached)) throw error;
      if (round === this.#round) this.problem = error.message;
    }
  }
}
