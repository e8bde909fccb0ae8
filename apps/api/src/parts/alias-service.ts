import type { BodyOf, PartDetail, parts } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { foundPart, partView, refuseAliasTaken, refuseUnknownCustomer } from './found.js';
import { searchKey } from './search-words.js';
import { partsWriter } from './store.js';

export function aliasService({ uow, newId, timeZone }: Foundation) {
  return {
    async addAlias(
      actor: Actor,
      partId: string,
      { alias, customerId }: BodyOf<typeof parts.addAlias>,
    ): Promise<PartDetail> {
      return uow.write(actor, async (unit) => {
        const store = partsWriter(unit.tx);
        const part = await foundPart(store, partId);
        await refuseUnknownCustomer(store, customerId);
        await refuseAliasTaken(store, part, alias);
        const aliasKey = searchKey(alias);
        await store.addAlias({ id: newId(), partId, customerId, alias, aliasKey });
        unit.append({
          type: 'part.aliasAdded',
          subjectType: 'part',
          subjectId: partId,
          version: part.version,
          after: { alias, customerId },
        });
        return partView(unit.tx, await foundPart(store, partId), timeZone);
      });
    },

    async removeAlias(actor: Actor, partId: string, aliasId: string): Promise<PartDetail> {
      return uow.write(actor, async (unit) => {
        const store = partsWriter(unit.tx);
        const part = await foundPart(store, partId);
        const row = part.aliasRows.find(({ id }) => id === aliasId);
        if (row === undefined) throw notFound('alias', aliasId, 'params.aliasId');
        await store.removeAlias(aliasId);
        unit.append({
          type: 'part.aliasRemoved',
          subjectType: 'part',
          subjectId: partId,
          version: part.version,
          before: { alias: row.alias, customerId: row.customerId },
        });
        return partView(unit.tx, await foundPart(store, partId), timeZone);
      });
    },
  };
}
