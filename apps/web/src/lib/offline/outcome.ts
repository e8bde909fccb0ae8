import type { Run } from '@tackboard/contract';
import { ApiRefusal, NotReached } from '../api/refusal.js';
import type { RefusedAs } from './commands.js';

/** What came of sending one entry. */
export type Outcome =
  /** `run` is the run after it, null for an act that leaves the run as it is. */
  | { readonly kind: 'accepted'; readonly run: Run | null; readonly words: readonly string[] }
  /** No answer, or none that decides: the same entry is sent again with the same key. */
  | { readonly kind: 'unanswered' }
  /** The one who did it must sign in before it can be sent. */
  | { readonly kind: 'signedOut' }
  | { readonly kind: 'refused'; readonly as: RefusedAs };

/** Whether a failure says nothing about what was asked: no answer, a fault of the server, or too many at once. */
export function saysNothing(error: unknown): boolean {
  if (error instanceof NotReached) return true;
  return (
    error instanceof ApiRefusal && (error.code === 'INTERNAL' || error.code === 'TOO_MANY_ATTEMPTS')
  );
}

/** Reads what `call` threw. Anything but a refusal or a missing answer is a fault of this program and thrown on. */
export function outcomeOf(error: unknown): Outcome {
  if (saysNothing(error)) return { kind: 'unanswered' };
  if (!(error instanceof ApiRefusal)) throw error;
  if (error.code === 'NOT_SIGNED_IN') return { kind: 'signedOut' };
  const { code, message, fields } = error;
  return { kind: 'refused', as: { code, message, fields } };
}
