import type { BodyOf, people, Person } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField, stale, type Refusal } from '../refusal.js';
import { peopleReader, peopleWriter, viewOf } from './store.js';

/** The people of the shop. */
export function createRegister({ database, uow, newId }: Foundation) {
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
  };
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
