import type { Role } from '@tackboard/contract';

/** Who asks, from where, under which command key. */
export interface Actor {
  readonly person: ActingPerson | null;
  readonly tablet: {
    readonly id: string;
    readonly name: string;
    readonly cellId: string;
    readonly cellCode: string;
  } | null;
  readonly sessionId: string | null;
  readonly requestId: string | null;
  /** Set when the caller named the command: its answer is stored with the write. */
  readonly command: {
    readonly key: string;
    readonly routeId: string;
    readonly digest: string;
  } | null;
}

export interface ActingPerson {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly role: Role;
  readonly coordinator: boolean;
}

/** The service itself: first run, demo shop, later work. */
export const systemActor: Actor = {
  person: null,
  tablet: null,
  sessionId: null,
  requestId: null,
  command: null,
};

/** The person behind the call; routes with a person rule always have one. */
export function actingPerson(actor: Actor): ActingPerson {
  if (actor.person === null)
    throw new Error('This act needs a person, and the route let somebody in without one.');
  return actor.person;
}
