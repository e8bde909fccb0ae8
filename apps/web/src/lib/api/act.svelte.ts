import type { ReplyOf, Route } from '@tackboard/contract';
import { call, type CallInput } from './call.js';
import { ApiRefusal, NotReached } from './refusal.js';
import { newKey } from './request.js';

/**
 * One act of a screen: a write with its waiting time and its refusal. What was typed stays with the
 * screen. When no answer came, sending the very same again uses the same key, so it counts once.
 */
export class Act {
  busy = $state(false);
  refusal = $state.raw<ApiRefusal | NotReached | null>(null);
  #unanswered: { readonly print: string; readonly key: string } | null = null;

  /** Sends a write. Returns the reply, or null when it was refused or not reached: see `refusal`. */
  async send<R extends Route>(route: R, input: CallInput<R>): Promise<ReplyOf<R> | null> {
    if (this.busy) return null;
    this.busy = true;
    const print = JSON.stringify([route.id, input]);
    const key = this.#unanswered?.print === print ? this.#unanswered.key : newKey();
    try {
      const reply = await call(route, { ...input, idempotencyKey: key });
      this.refusal = null;
      this.#unanswered = null;
      return reply;
    } catch (error) {
      if (!(error instanceof ApiRefusal || error instanceof NotReached)) throw error;
      this.#unanswered = error instanceof NotReached ? { print, key } : null;
      this.refusal = error;
      return null;
    } finally {
      this.busy = false;
    }
  }

  /** What the server allows for one field of the body, when it refused that field. */
  fieldError(name: string): string | undefined {
    if (!(this.refusal instanceof ApiRefusal)) return undefined;
    return this.refusal.fields.find((field) => field.field === `body.${name}`)?.allowed;
  }

  clear(): void {
    this.refusal = null;
  }
}
