import type { BodyOf, PartDetail, parts, PartSummary, QueryOf } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import { changedFields } from '../events/changed-fields.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { stale } from '../refusal.js';
import { aliasService } from './alias-service.js';
import { customersService } from './customers-service.js';
import { foundPart, partView, refuseNumberTaken, refuseUnknownCustomer } from './found.js';
import { revisionService } from './revision-service.js';
import { ranked, widePattern } from './search-words.js';
import { setUpService } from './set-up-service.js';
import { partsReader, partsWriter, type PartRecord } from './store.js';
import { toolingService } from './tooling-service.js';

export type PartsService = ReturnType<typeof createPartsService>;

export function createPartsService(
  foundation: Foundation,
  { files }: { readonly files: Pick<FilesService, 'copyUses'> },
) {
  return {
    ...customersService(foundation),
    ...partService(foundation),
    ...aliasService(foundation),
    ...revisionService(foundation, files),
    ...setUpService(foundation, files),
    ...toolingService(foundation),
  };
}

function partService({ database, uow, newId, timeZone }: Foundation) {
  return {
    async list({
      search = '',
      limit,
      offset,
    }: QueryOf<typeof parts.list>): Promise<{ parts: PartSummary[]; total: number }> {
      const store = partsReader(database.reader);
      if (search === '') {
        const page = await store.partsPage({ limit, offset });
        return { parts: page.map(summary), total: await store.partCount() };
      }
      const ids = ranked(await store.knownAs(widePattern(search)), search);
      const page = await store.partsByIds(ids.slice(offset, offset + limit));
      return { parts: page.map(summary), total: ids.length };
    },

    /** Refuses an unknown part, naming the field it was given in. */
    async get(
      partId: string,
      { field, db = database.reader }: { field?: string; db?: Db } = {},
    ): Promise<PartDetail> {
      return partView(db, await foundPart(partsReader(db), partId, field), timeZone);
    },

    async add(actor: Actor, input: BodyOf<typeof parts.add>): Promise<PartDetail> {
      return uow.write(actor, async (unit) => {
        const store = partsWriter(unit.tx);
        await refuseUnknownCustomer(store, input.customerId);
        await refuseNumberTaken(store, input.number);
        const id = newId();
        await store.addPart(id, input, unit.now);
        unit.append({
          type: 'part.added',
          subjectType: 'part',
          subjectId: id,
          version: 1,
          after: input,
        });
        return partView(unit.tx, await foundPart(store, id), timeZone);
      });
    },

    async edit(
      actor: Actor,
      partId: string,
      { expectedVersion, ...changes }: BodyOf<typeof parts.edit>,
    ): Promise<PartDetail> {
      return uow.write(actor, async (unit) => {
        const store = partsWriter(unit.tx);
        const before = await foundPart(store, partId);
        if (before.version !== expectedVersion) {
          throw stale('part', await partView(unit.tx, before, timeZone), expectedVersion);
        }
        await refuseUnknownCustomer(store, changes.customerId ?? null);
        if (changes.number !== undefined) await refuseNumberTaken(store, changes.number, partId);
        await store.changePart(partId, changes);
        unit.append({
          type: 'part.changed',
          subjectType: 'part',
          subjectId: partId,
          version: before.version + 1,
          ...changedFields<PartRecord>(before, changes as Partial<PartRecord>),
        });
        return partView(unit.tx, await foundPart(store, partId), timeZone);
      });
    },
  };
}

function summary(part: PartRecord): PartSummary {
  const { id, version, number, name, customerName, coded, aliases, active } = part;
  const { latestRevision, releasedRevision } = part;
  return {
    ...{ id, version, number, name, customerName, coded, aliases, active },
    ...{ latestRevision, releasedRevision },
  };
}
