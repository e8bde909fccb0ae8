import type { Wps, WpsInUse, WpsRanges, WpsSummary } from '@tackboard/contract';
import type { z } from 'zod';
import { actingPerson, type Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { approvalService } from './approval-service.js';
import { changedFields } from '../events/changed-fields.js';
import { refuseImpossibleDetails } from './detail-rules.js';
import { foundWps, refuseStale, refuseUnlessDraft } from './found.js';
import { inUseReader } from './in-use-store.js';
import { proceduresReader, proceduresWriter, type WpsFields } from './store.js';
import { toSummary, wpsView, type WpsInput } from './views.js';
import { wpqrService } from './wpqr-service.js';
import { wpqrReader } from './wpqr-store.js';

/** What other areas need of a procedure that may be used. */
export interface ApprovedWps {
  readonly id: string;
  readonly number: string;
  readonly revision: number;
  readonly title: string;
  readonly code: string;
  readonly ranges: WpsRanges;
}

export type ProceduresService = ReturnType<typeof createProceduresService>;

export function createProceduresService(foundation: Foundation) {
  return {
    ...wpqrService(foundation),
    ...draftService(foundation),
    ...approvalService(foundation),
    ...forOthers(foundation),
  };
}

/** Reads for other areas; inside their transaction when they pass it. */
function forOthers({ database }: Foundation) {
  return {
    /** The one revision of a number that may be used today; null when there is none. */
    async approvedByNumber(number: string, db: Db = database.reader): Promise<ApprovedWps | null> {
      const [row] = await proceduresReader(db).approved([number]);
      return row ?? null;
    },
    /** By number; a number without an approved revision is not in the answer. */
    async approvedByNumbers(
      numbers: readonly string[],
      db: Db = database.reader,
    ): Promise<ReadonlyMap<string, ApprovedWps>> {
      const rows = await proceduresReader(db).approved([...new Set(numbers)]);
      return new Map(rows.map((row) => [row.number, row]));
    },
    /** Every revision that may be used today. */
    async allApproved(db: Db = database.reader): Promise<readonly ApprovedWps[]> {
      return proceduresReader(db).approved();
    },
    /** Any revision, whatever its state: past work keeps the one it was made under. */
    async byId(
      id: string,
      db: Db = database.reader,
    ): Promise<(ApprovedWps & { state: Wps['state'] }) | null> {
      const row = await proceduresReader(db).wps(id);
      if (row === null) return null;
      const { number, revision, title, code, ranges, state } = row;
      return { id, number, revision, title, code, ranges, state };
    },
  };
}

function draftService({ database, uow, newId }: Foundation) {
  return {
    async list({ state }: { state?: Wps['state'] | undefined }): Promise<{
      wpss: z.infer<typeof WpsSummary>[];
    }> {
      const store = proceduresReader(database.reader);
      const rows = await store.wpss(state);
      const names = await store.names(rows.flatMap(({ approvedById }) => approvedById ?? []));
      return { wpss: rows.map((row) => toSummary(row, names)) };
    },

    /** What is set and what was read under a revision, the newest of each. */
    async inUse(id: string): Promise<WpsInUse> {
      const { number } = await foundWps(proceduresReader(database.reader), id);
      const store = inUseReader(database.reader);
      const [setUps, readings] = await Promise.all([store.setUps(number), store.readings(id)]);
      return { setUps, readings };
    },

    async get(id: string): Promise<Wps> {
      const store = proceduresReader(database.reader);
      return wpsView(store, await foundWps(store, id));
    },

    async add(
      actor: Actor,
      input: Omit<WpsInput, 'expectedVersion'> & { number: string },
    ): Promise<Wps> {
      const { number, wpqrIds, ...fields } = input;
      return uow.write(actor, async (unit) => {
        const store = proceduresWriter(unit.tx);
        await refuseNumberOnFile(store, number);
        await refuseUnknownRecords(unit.tx, wpqrIds);
        refuseImpossibleDetails(fields);
        const id = newId();
        const writtenById = actingPerson(actor).id;
        await store.addWps({ id, number, revision: 1, writtenById, ...fields }, unit.now);
        await store.setSupports(id, wpqrIds);
        unit.append({
          type: 'wps.written',
          subjectType: 'wps',
          subjectId: id,
          version: 1,
          after: input,
          meaning: 'made',
        });
        return wpsView(store, await foundWps(store, id));
      });
    },

    async edit(actor: Actor, id: string, input: WpsInput): Promise<Wps> {
      const { expectedVersion, wpqrIds, ...fields } = input;
      return uow.write(actor, async (unit) => {
        const store = proceduresWriter(unit.tx);
        const row = await foundWps(store, id);
        await refuseStale(store, row, expectedVersion);
        refuseUnlessDraft(row);
        await refuseUnknownRecords(unit.tx, wpqrIds);
        refuseImpossibleDetails(fields);
        await store.setDraft({ id, version: expectedVersion }, fields);
        await store.setSupports(id, wpqrIds);
        unit.append({
          type: 'wps.changed',
          subjectType: 'wps',
          subjectId: id,
          version: expectedVersion + 1,
          ...changedFields<WpsFields & { wpqrIds: string[] }>(
            { ...row, wpqrIds: row.records.map((record) => record.id) },
            { ...fields, wpqrIds },
          ),
        });
        return wpsView(store, await foundWps(store, id));
      });
    },
  };
}

type Store = ReturnType<typeof proceduresReader>;

async function refuseNumberOnFile(store: Store, number: string): Promise<void> {
  const [latest] = await store.revisions(number);
  if (latest === undefined) return;
  throw refuseField(
    'DUPLICATE',
    `${number} is on file already, revision ${latest.revision} is ${latest.state}. Start its next revision, or choose another number.`,
    'body.number',
    number,
    'a number not on file yet',
  );
}

async function refuseUnknownRecords(db: Db, wpqrIds: readonly string[]): Promise<void> {
  const known = await wpqrReader(db).wpqrIds(wpqrIds);
  const at = wpqrIds.findIndex((id) => !known.has(id));
  const unknown = wpqrIds[at];
  if (unknown !== undefined) {
    throw notFound('procedure test record', unknown, `body.wpqrIds.${at}`);
  }
}
