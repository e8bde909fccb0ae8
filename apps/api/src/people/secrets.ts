import type { people } from '@tackboard/contract';
import type { z } from 'zod';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { peopleReader, peopleWriter } from './store.js';
import { hashSecret, newPin } from './tokens.js';

type SignedInSession = z.infer<typeof people.sessions.reply>['sessions'][number];

/** PINs and passwords that a manager gives, and who is signed in with them. */
export function createSecrets({ database, uow, clock }: Foundation) {
  const read = peopleReader(database.reader);

  return {
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
