import { mayCall, people, type Route, type SessionView } from '@tackboard/contract';
import { call } from '../api/call.js';

const unknown: SessionView = { person: null, tablet: null, firstRun: false, timeZone: 'UTC' };

/** Who is signed in here and at which tablet, as the server last said. */
class Session {
  #view = $state.raw<SessionView>(unknown);
  /** False until the server has answered once. */
  known = $state(false);

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
    this.take(await call(people.session));
  }

  /** Takes over what a sign-in or the first run replied. */
  take(view: SessionView): void {
    this.#view = view;
    this.known = true;
  }

  async signOut(): Promise<void> {
    await call(people.signOut);
    this.drop();
  }

  /** Forgets the person; the tablet stays what it is. */
  drop(): void {
    this.#view = { ...this.#view, person: null };
  }

  /** Whether the server would let the one here call this route. It decides anyway; this only hides. */
  may(route: Pick<Route, 'access'>): boolean {
    return mayCall(route.access, { person: this.#view.person, tablet: this.#view.tablet !== null });
  }
}

export const session = new Session();
