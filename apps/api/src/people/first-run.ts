import { type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import type { SignedIn, Sessions } from './sessions.js';
import { peopleReader, peopleWriter, viewOf } from './store.js';
import { hashSecret } from './tokens.js';

/** The first manager of an empty shop; there is no second first run. */
export function createFirstRun({ database, uow, newId }: Foundation, { start }: Sessions) {
  const read = peopleReader(database.reader);

  return {
    async firstRun(
      actor: Actor,
      input: { code: string; name: string; password: string },
    ): Promise<SignedIn> {
      if (await read.anyone()) throw firstRunOver();
      const passwordHash = await hashSecret(input.password);
      return uow.write({ ...actor, command: null }, async (unit) => {
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
        return start(unit, row, null);
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
