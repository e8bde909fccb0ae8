import type { SessionView } from '@tackboard/contract';
import { actingPerson, systemActor, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import { afterFailure, waitS } from './attempts.js';
import { peopleReader, peopleWriter, viewOf, type PersonRow, type TabletRow } from './store.js';
import { hashSecret, newToken, printOf, secretMatches } from './tokens.js';

const officeIdleMs = 12 * 3_600_000;
const tabletIdleMs = 10 * 60_000;
/** Writing "last used" on every request would make every read a write. */
const touchAfterMs = 60_000;

export interface SignedIn {
  readonly token: string;
  readonly view: SessionView;
}

export function createSignIn({ database, uow, clock, newId, timeZone }: Foundation) {
  const read = peopleReader(database.reader);
  const idleMs = (tabletId: string | null) => (tabletId === null ? officeIdleMs : tabletIdleMs);

  async function whoIs(
    sessionToken: string | null,
    tabletToken: string | null,
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
    if (now.getTime() - session.lastUsedAt.getTime() > touchAfterMs) {
      const endsAt = new Date(now.getTime() + idleMs(session.tabletId));
      await uow.write(
        systemActor,
        async (unit) => await peopleWriter(unit.tx).useSession(session.sessionId, now, endsAt),
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

  /** Counts the try before it is checked, so that a hundred guesses at once are a hundred tries. */
  async function countTry(keys: readonly string[]): Promise<void> {
    await uow.write(systemActor, async (unit) => {
      const writer = peopleWriter(unit.tx);
      for (const key of keys) {
        const before = await writer.attempts(key);
        const seconds = waitS(before, unit.now);
        if (seconds > 0)
          throw new Refusal(
            'TOO_MANY_ATTEMPTS',
            `Too many wrong tries. Wait ${seconds} s and try again, or ask the manager for a new PIN or password.`,
          );
        await writer.setAttempts(key, afterFailure(before, unit.now), unit.now);
      }
    });
  }

  /** One way in for passwords and PINs: the delay, the check that takes equally long for everyone, the session. */
  async function enter(
    actor: Actor,
    code: string,
    secret: string,
    kind: 'password' | 'pin',
    device: string,
  ): Promise<SignedIn> {
    const keys = [`person:${code.toLowerCase()}`, `device:${device}`];
    await countTry(keys);
    const row = await read.byCode(code);
    const stored =
      row === null || !row.active ? null : kind === 'pin' ? row.pinHash : row.passwordHash;
    if (!(await secretMatches(stored, secret)) || row === null) {
      throw new Refusal(
        'WRONG_CREDENTIALS',
        kind === 'pin'
          ? 'The code and the PIN do not belong together. Try again.'
          : 'The code and the password do not belong together. Try again.',
      );
    }
    const tablet = kind === 'pin' ? actor.tablet : null;
    return await uow.write({ ...actor, person: row, command: null }, async (unit) => {
      await peopleWriter(unit.tx).clearAttempts(keys);
      return await start(unit, row, tablet);
    });
  }

  return {
    whoIs,
    session,
    async firstRun(
      actor: Actor,
      input: { code: string; name: string; password: string },
    ): Promise<SignedIn> {
      if (await read.anyone()) throw firstRunOver();
      const passwordHash = await hashSecret(input.password);
      return await uow.write({ ...actor, command: null }, async (unit) => {
        const writer = peopleWriter(unit.tx);
        if (await writer.anyone()) throw firstRunOver();
        const row = await writer.add({
          id: newId(),
          code: input.code,
          name: input.name,
          role: 'manager',
          coordinator: false,
          language: 'en',
          passwordHash,
          createdAt: unit.now,
        });
        unit.append({
          type: 'person.added',
          subjectType: 'person',
          subjectId: row.id,
          version: 1,
          after: viewOf(row),
        });
        return await start(unit, row, null);
      });
    },
    async signIn(
      actor: Actor,
      input: { code: string; password: string },
      device: string,
    ): Promise<SignedIn> {
      return await enter(actor, input.code, input.password, 'password', device);
    },
    async signInWithPin(actor: Actor, input: { code: string; pin: string }): Promise<SignedIn> {
      return await enter(actor, input.code, input.pin, 'pin', actor.tablet?.id ?? 'none');
    },
    async signOut(actor: Actor): Promise<{ done: true }> {
      const { sessionId, person } = actor;
      if (sessionId === null || person === null) return { done: true };
      return await uow.write({ ...actor, command: null }, async (unit) => {
        await peopleWriter(unit.tx).endSessions({ id: sessionId }, unit.now);
        unit.append({ type: 'session.ended', subjectType: 'person', subjectId: person.id });
        return { done: true as const };
      });
    },
    async changePassword(
      actor: Actor,
      input: { oldPassword: string; newPassword: string },
    ): Promise<{ done: true }> {
      const person = actingPerson(actor);
      const keys = [`person:${person.code.toLowerCase()}`];
      await countTry(keys);
      const row = await read.byId(person.id);
      if (!(await secretMatches(row?.passwordHash ?? null, input.oldPassword))) {
        throw new Refusal(
          'WRONG_CREDENTIALS',
          'The old password is not right. Nothing was changed.',
          {
            fields: [
              {
                field: 'body.oldPassword',
                given: null,
                allowed: 'the password you sign in with now',
              },
            ],
          },
        );
      }
      const passwordHash = await hashSecret(input.newPassword);
      return await uow.write({ ...actor, command: null }, async (unit) => {
        const writer = peopleWriter(unit.tx);
        await writer.change(person.id, { passwordHash });
        await writer.clearAttempts(keys);
        await writer.endSessions(
          {
            personId: person.id,
            ...(actor.sessionId === null ? {} : { id: { not: actor.sessionId } }),
          },
          unit.now,
        );
        unit.append({
          type: 'person.passwordChanged',
          subjectType: 'person',
          subjectId: person.id,
        });
        return { done: true as const };
      });
    },
  };
}

function firstRunOver(): Refusal {
  return new Refusal(
    'NOT_NOW',
    'This shop has people on file already. Sign in, or ask the manager to add you.',
  );
}
