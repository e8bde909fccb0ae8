import { mayCall, people, SessionView, type Route } from '@tackboard/contract';
import { call } from '../api/call.js';
import { noteSignedIn } from '../api/signed-out.js';
import { Rounds } from '../live/rounds.js';
import { forget, keep, recall } from '../offline/answers.js';
import { saysNothing } from '../offline/outcome.js';

/** A tablet keeps who worked at it, so that its cell screen opens without network; an office computer does not. */
const keptAs = 'session';
const patienceMs = 6_000;
const unknown: SessionView = { person: null, tablet: null, firstRun: false, timeZone: 'UTC' };

/** Who is signed in here and at which tablet, as the server last said. */
class Session {
  #view = $state.raw<SessionView>(unknown);
  /** False until the server has answered once. */
  known = $state(false);
  /** True while the server has not answered and the view is the one kept here. */
  recalled = $state(false);
  /** Who signs in or leaves here is not undone by an answer that was asked for before. */
  readonly #rounds = new Rounds();

  get view(): SessionView {
    return this.#view;
  }
  get person(): SessionView['person'] {
    return this.#view.person;
  }
  get tablet(): SessionView['tablet'] {
    return this.#view.tablet;
  }
  get timeZone(): string {
    return this.#view.timeZone;
  }

  async load(): Promise<void> {
    const round = this.#rounds.told();
    try {
      const view = await call(people.session, { signal: AbortSignal.timeout(patienceMs) });
      if (this.#rounds.take(round)) this.#show(view);
    } catch (error) {
      const kept = saysNothing(error) && !this.known ? await recall(keptAs, SessionView) : null;
      if (kept === null) throw error;
      this.#view = kept;
      this.known = true;
      this.recalled = true;
    }
  }

  /** Takes over what the server said to an act here: a sign-in. */
  take(view: SessionView): void {
    noteSignedIn(performance.now());
    this.#rounds.asked();
    this.#show(view);
  }

  async signOut(): Promise<void> {
    await call(people.signOut);
    this.drop();
  }

  /** Leaves without waiting for the server, which ends a tablet's session after the same time by itself. */
  leave(): void {
    this.drop();
    void call(people.signOut).catch(() => undefined);
  }

  /** Forgets the person; the tablet stays what it is. */
  drop(): void {
    this.#rounds.asked();
    this.#view = { ...this.#view, person: null };
    this.#keep();
  }

  #show(view: SessionView): void {
    this.#view = view;
    this.known = true;
    this.recalled = false;
    this.#keep();
  }

  #keep(): void {
    void (this.#view.tablet === null ? forget(keptAs) : keep(keptAs, this.#view));
  }

  /** Whether the server would let the one here call this route. It decides anyway; this only hides. */
  may(route: Pick<Route, 'access'>): boolean {
    return mayCall(route.access, { person: this.#view.person, tablet: this.#view.tablet !== null });
  }
}

export const session = new Session();
