import type { SessionView } from '@tackboard/contract';
import { session } from '$lib/session/session.svelte.js';

/** Asks who does something when it is done, not before: the cell is read by everybody, and acts have a name. */
export class AtTheAct {
  /** What is carried out once the PIN was right; null while nobody is asked. */
  #wanted = $state.raw<(() => unknown) | null>(null);

  get asking(): boolean {
    return this.#wanted !== null;
  }

  /** Carries out an act as whoever is signed in here, or asks for a PIN first and then carries it out. */
  do(act: () => unknown): void {
    if (session.person === null) this.askFor(act);
    else act();
  }

  /** Asks for a PIN although somebody is signed in: another person acts now. */
  askFor(act: () => unknown): void {
    this.#wanted = act;
    // The people and the pad begin at the top of the glass.
    scrollTo({ top: 0 });
  }

  /** The PIN was right: from here on it is this person's tablet, and the act is theirs. */
  signed(view: SessionView): void {
    const act = this.#wanted;
    this.#wanted = null;
    session.take(view);
    act?.();
  }

  leave(): void {
    this.#wanted = null;
  }
}
