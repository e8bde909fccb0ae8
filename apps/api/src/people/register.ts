import type { BodyOf, people, Person } from '@tackboard/contract';
import type { z } from 'zod';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { peopleReader, peopleWriter, viewOf } from './store.js';
import { hashSecret, newPin } from './tokens.js';

type SignedInSession = z.infer<typeof people.sessions.reply>['sessions'][number];

/** The people of the shop and their secrets. */
export function createRegister({ database, uow, clock, newId }: Foundation) {
  const read = peopleReader(database.reader);

  return {
    async list(): Promise<{ people: Person[] }> {
      return { people: await read.list() };
    },
    async roster() {
      return { people: await read.roster() };
    },
    async add(actor: Actor, input: BodyOf<typeof people.add>): Promise<Person> {
      return uow.write(actor, async (unit) => {
        const writer = peopleWriter(unit.tx);
        if ((await writer.byCode(input.code)) !== null) throw codeTaken(input.code);
        const row = await writer.add({
          ...input,
          id: newId(),
          passwordHash: null,
          createdAt: unit.now,
        });
        unit.append({
          type: 'person.added',
          subjectType: 'person',
          subjectId: row.id,
          version: row.version,
          after: viewOf(row),
        });
        return viewOf(row);
      });
    },
    async edit(
      actor: Actor,
      personId: string,
      { expectedVersion, ...changes }: BodyOf<typeof people.edit>,
    ): Promise<Person> {
      return uow.write(actor, async (unit) => {
        const writer = peopleWriter(unit.tx);
        const before = await writer.byId(personId);
        if (before === null) throw notFound('person', personId);
        if (before.version !== expectedVersion)
          throw stale('person', viewOf(before), expectedVersion);
        if (
          changes.code !== undefined &&
          changes.code !== before.code &&
          (await writer.byCode(changes.code)) !== null
        )
          throw codeTaken(changes.code);
        const stepsDown =
          before.role === 'manager' &&
          before.active &&
          (changes.active === false || (changes.role !== undefined && changes.role !== 'manager'));
        if (stepsDown && (await writer.activeManagers()) === 1) {
          throw refuseField(
            'NOT_NOW',
            `${before.code} is the only manager. Make somebody else manager first.`,
            changes.active === false ? 'body.active' : 'body.role',
            changes.role ?? false,
            'manager',
          );
        }
        const row = await writer.change(personId, defined(changes));
        if (!row.active) await writer.endSessions({ personId }, unit.now);
        unit.append({
          type: 'person.changed',
          subjectType: 'person',
          subjectId: personId,
          version: row.version,
          before: viewOf(before),
          after: viewOf(row),
        });
        return viewOf(row);
      });
    },
    async issuePin(actor: Actor, personId: string): Promise<{ pin: string }> {
      const pin = newPin();
      const pinHash = await hashSecret(pin);
      return secretChanged(actor, personId, { pinHash }, 'person.pinIssued', { pin });
    },
    async setPassword(actor: Actor, personId: string, password: string): Promise<{ done: true }> {
      const passwordHash = await hashSecret(password);
      return secretChanged(actor, personId, { passwordHash }, 'person.passwordSet', {
        done: true,
      });
    },
    async sessions(actor: Actor, personId: string): Promise<{ sessions: SignedInSession[] }> {
      if ((await read.byId(personId)) === null) throw notFound('person', personId);
      const rows = await read.openSessions(personId, clock.now());
      const sessions = rows.map((row) => ({
        id: row.id,
        startedAt: row.startedAt.toISOString(),
        lastUsedAt: row.lastUsedAt.toISOString(),
        endsAt: row.endsAt.toISOString(),
        tabletName: row.tablet?.name ?? null,
        current: row.id === actor.sessionId,
      }));
      return { sessions };
    },
    async revokeSession(actor: Actor, sessionId: string): Promise<{ done: true }> {
      return uow.write(actor, async (unit) => {
        if ((await peopleWriter(unit.tx).endSessions({ id: sessionId }, unit.now)) === 0)
          throw notFound('open session', sessionId);
        unit.append({ type: 'session.revoked', subjectType: 'session', subjectId: sessionId });
        return { done: true as const };
      });
    },
  };

  async function secretChanged<T>(
    actor: Actor,
    personId: string,
    secret: { pinHash: string } | { passwordHash: string },
    type: string,
    answer: T,
  ): Promise<T> {
    return uow.write({ ...actor, command: null }, async (unit) => {
      const writer = peopleWriter(unit.tx);
      const before = await writer.byId(personId);
      if (before === null) throw notFound('person', personId);
      const row = await writer.change(personId, secret);
      await writer.clearAttempts([`person:${before.code.toLowerCase()}`]);
      // Whoever held the old secret is out.
      await writer.endSessions({ personId }, unit.now);
      unit.append({ type, subjectType: 'person', subjectId: personId, version: row.version });
      return answer;
    });
  }
}

function codeTaken(code: string): Refusal {
  return refuseField(
    'DUPLICATE',
    `The code ${code} belongs to somebody else. Choose another one.`,
    'body.code',
    code,
    'a code that nobody has',
  );
}

function defined<T extends object>(changes: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(changes).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
