import type { BodyOf, people, ReplyOf } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { peopleReader, peopleWriter, tabletWriter } from './store.js';
import { newToken, printOf } from './tokens.js';

type Tablet = ReplyOf<typeof people.registerTablet>;

/** The cell tablets: a device is one because the manager registered it there. */
export function createTablets({ database, uow, newId }: Foundation) {
  const read = peopleReader(database.reader);

  return {
    async tablets(): Promise<{ tablets: Tablet[] }> {
      const rows = await read.tablets();
      return { tablets: rows.map(viewOf) };
    },
    /** The token goes into the device's cookie and nowhere else. */
    async registerTablet(
      actor: Actor,
      input: BodyOf<typeof people.registerTablet>,
    ): Promise<{ token: string; tablet: Tablet }> {
      const token = newToken();
      const tablet = await uow.write({ ...actor, command: null }, async (unit) => {
        const writer = peopleWriter(unit.tx);
        if ((await writer.cellCode(input.cellId)) === null)
          throw notFound('cell', input.cellId, 'body.cellId');
        const row = await tabletWriter(unit.tx).addTablet({
          id: newId(),
          ...input,
          tokenHash: printOf(token),
          registeredAt: unit.now,
          registeredBy: actingPerson(actor).id,
        });
        unit.append({
          type: 'tablet.registered',
          subjectType: 'tablet',
          subjectId: row.id,
          version: row.version,
          cellId: row.cellId,
          after: { name: row.name, cell: row.cell.code },
        });
        return viewOf(row);
      });
      return { token, tablet };
    },
    async revokeTablet(actor: Actor, tabletId: string): Promise<{ done: true }> {
      return uow.write(actor, async (unit) => {
        const writer = peopleWriter(unit.tx);
        if (!(await tabletWriter(unit.tx).revokeTablet(tabletId, unit.now)))
          throw notFound('registered tablet', tabletId);
        await writer.endSessions({ tabletId }, unit.now);
        unit.append({ type: 'tablet.revoked', subjectType: 'tablet', subjectId: tabletId });
        return { done: true as const };
      });
    },
  };
}

type TabletRow = Awaited<ReturnType<ReturnType<typeof peopleReader>['tablets']>>[number];

function viewOf(row: TabletRow): Tablet {
  return {
    id: row.id,
    version: row.version,
    name: row.name,
    cellId: row.cellId,
    cellCode: row.cell.code,
    registeredAt: row.registeredAt.toISOString(),
    revokedAt: row.revokedAt?.toISOString() ?? null,
  };
}
