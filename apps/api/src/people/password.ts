import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import { peopleReader, peopleWriter } from './store.js';
import { hashSecret, secretMatches } from './tokens.js';
import { createTries } from './tries.js';

export function createPassword(foundation: Pick<Foundation, 'database' | 'uow'>) {
  const { uow } = foundation;
  const read = peopleReader(foundation.database.reader);
  const { countTry } = createTries(foundation);

  return {
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
      return uow.write({ ...actor, command: null }, async (unit) => {
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
