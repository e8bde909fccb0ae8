import type { SessionView } from '@tackboard/contract';
import { systemActor, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { peopleReader, peopleWriter, viewOf, type PersonRow, type TabletRow } from './store.js';
import { newToken, printOf } from './tokens.js';

const officeIdleMs = 12 * 3_600_000;
const tabletIdleMs = 10 * 60_000;
/** Writing "last used" on every request would make every read a write. */
const touchAfterMs = 60_000;

export interface SignedIn {
  readonly token: string;
  readonly view: SessionView;
}

export type Sessions = ReturnType<typeof createSessions>;

/** Sessions live in the database; a cookie holds nothing but a token. */
export function createSessions({ database, uow, clock, newId, timeZone }: Foundation) {
  const read = peopleReader(database.reader);
  const idleMs = (tabletId: string | null) => (tabletId === null ? officeIdleMs : tabletIdleMs);

  async function whoIs(
    sessionToken: string | null,
    tabletToken: string | null,
    { acting }: { readonly acting: boolean },
  ): Promise<Pick<Actor, 'person' | 'tablet' | 'sessionId'>> {
    const tablet = tabletToken === null ? null : await read.tablet(printOf(tabletToken));
    const session = sessionToken === null ? null : await read.session(printOf(sessionToken));
    const now = clock.now();
    // A PIN session is bound to the tablet where the PIN was typed.
    if (
      session === null ||
      session.endsAt <= now ||
      (session.tabletId !== null && session.tabletId !== tablet?.id)
    )
      return { person: null, tablet, sessionId: null };
    // A cell screen loads what is new by itself; at a shared tablet only an act shows that the person is there.
    const present = session.tabletId === null || acting;
    if (present && now.getTime() - session.lastUsedAt.getTime() > touchAfterMs) {
      const endsAt = new Date(now.getTime() + idleMs(session.tabletId));
      await uow.write(systemActor, async (unit) =>
        peopleWriter(unit.tx).useSession(session.sessionId, now, endsAt),
      );
    }
    const { personId: id, code, name, role, coordinator } = session;
    return { person: { id, code, name, role, coordinator }, tablet, sessionId: session.sessionId };
  }

  async function session(actor: Actor): Promise<SessionView> {
    const row = actor.person === null ? null : await read.byId(actor.person.id);
    return view(row, actor.tablet, row === null && !(await read.anyone()));
  }

  function view(row: PersonRow | null, tablet: TabletRow | null, firstRun: boolean): SessionView {
    return { person: row === null ? null : viewOf(row), tablet, firstRun, timeZone };
  }

  async function start(unit: Unit, row: PersonRow, tablet: TabletRow | null): Promise<SignedIn> {
    const token = newToken();
    const id = newId();
    const endsAt = new Date(unit.now.getTime() + idleMs(tablet?.id ?? null));
    await peopleWriter(unit.tx).startSession({
      id,
      tokenHash: printOf(token),
      personId: row.id,
      tabletId: tablet?.id ?? null,
      startedAt: unit.now,
      endsAt,
    });
    unit.append({
      type: 'session.started',
      subjectType: 'person',
      subjectId: row.id,
      after: { code: row.code, tablet: tablet?.name ?? null },
    });
    return { token, view: view(row, tablet, false) };
  }

  return { whoIs, session, start };
}
