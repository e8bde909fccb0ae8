import type { Wps } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import { breachesOf } from './breaches.js';
import { foundWps, refuseStale } from './found.js';
import { proceduresWriter, type WpsFields, type WpsRecord } from './store.js';
import { wpsView } from './views.js';

type Store = ReturnType<typeof proceduresWriter>;

/** From draft to approved, to the next revision, or out of use. An approved revision is never changed. */
export function approvalService({ uow, newId }: Foundation) {
  return {
    /** The approved revision before it is superseded in the same commit. */
    async approve(
      actor: Actor,
      id: string,
      { expectedVersion }: { expectedVersion: number },
    ): Promise<Wps> {
      return uow.write(actor, async (unit) => {
        const store = proceduresWriter(unit.tx);
        const row = await foundWps(store, id);
        await refuseStale(store, row, expectedVersion);
        const approvedBy = actingPerson(actor).id;
        await refuseUnapprovable(store, row, approvedBy);
        await store.approve({ id, version: expectedVersion }, { approvedBy, approvedAt: unit.now });
        await supersedeOthers(store, unit, row);
        append(unit, 'wps.approved', row, { meaning: 'approved' });
        return wpsView(store, await foundWps(store, id));
      });
    },

    async revise(actor: Actor, id: string, { changeNote }: { changeNote: string }): Promise<Wps> {
      return uow.write(actor, async (unit) => {
        const store = proceduresWriter(unit.tx);
        const row = await foundWps(store, id);
        const revision = await nextRevision(store, row);
        const next = {
          ...textOf(row),
          changeNote,
          id: newId(),
          number: row.number,
          revision,
          writtenById: actingPerson(actor).id,
        };
        await store.addWps(next, unit.now);
        await store.setSupports(
          next.id,
          row.records.map((record) => record.id),
        );
        unit.append({
          type: 'wps.revised',
          subjectType: 'wps',
          subjectId: next.id,
          version: 1,
          after: { number: row.number, revision, fromRevision: row.revision },
          reason: changeNote,
          meaning: 'made',
        });
        return wpsView(store, await foundWps(store, next.id));
      });
    },

    async withdraw(
      actor: Actor,
      id: string,
      input: { expectedVersion: number; reason: string },
    ): Promise<Wps> {
      return uow.write(actor, async (unit) => {
        const store = proceduresWriter(unit.tx);
        const row = await foundWps(store, id);
        await refuseStale(store, row, input.expectedVersion);
        if (row.state !== 'approved' && row.state !== 'draft') {
          throw new Refusal('NOT_NOW', `${label(row)} is ${row.state}: it is out of use already.`);
        }
        await store.withdraw({ id, version: input.expectedVersion });
        append(unit, 'wps.withdrawn', row, { reason: input.reason });
        return wpsView(store, await foundWps(store, id));
      });
    },
  };
}

function label({ number, revision }: WpsRecord): string {
  return `${number} revision ${revision}`;
}

function textOf(row: WpsRecord): WpsFields {
  const { title, code, ranges, joint, details, technique, changeNote } = row;
  return { title, code, ranges, joint, details, technique, changeNote };
}

async function refuseUnapprovable(store: Store, row: WpsRecord, personId: string): Promise<void> {
  if (row.state !== 'draft') {
    throw new Refusal('NOT_NOW', `${label(row)} is ${row.state}; only a draft can be approved.`);
  }
  if (row.writtenById === personId || (await store.hasWritten(row.id, personId))) {
    throw new Refusal(
      'NOT_ALLOWED',
      `You wrote or changed ${label(row)} yourself. Another coordinator must read and approve it.`,
    );
  }
  if (row.records.length === 0) {
    throw new Refusal(
      'NOT_NOW',
      `${label(row)} rests on no procedure test record. Name the record that supports it first.`,
    );
  }
  const failed = row.records.find(({ failedTests }) => failedTests.length > 0);
  if (failed !== undefined) {
    throw new Refusal(
      'NOT_NOW',
      `${failed.number} holds a failed test (${failed.failedTests.join(', ')}) and supports no procedure.`,
    );
  }
  await refuseBreaches(store, row);
}

async function refuseBreaches(store: Store, row: WpsRecord): Promise<void> {
  const breaches = breachesOf(row, row.records);
  if (breaches.length === 0) return;
  const words = breaches.map(
    ({ variable, wps, wpqrNumber, allowed }) =>
      `${variable} ${wps}, ${wpqrNumber} allows ${allowed}`,
  );
  throw new Refusal(
    'DOES_NOT_FIT',
    `${label(row)} goes beyond the records behind it: ${words.join('; ')}. Narrow the procedure, or name a record that covers it.`,
    {
      fields: breaches.map(({ variable, wps, wpqrNumber, allowed }) => ({
        field: variable,
        given: wps,
        allowed: `${allowed} (${wpqrNumber})`,
      })),
      current: await wpsView(store, row),
    },
  );
}

async function supersedeOthers(store: Store, unit: Unit, row: WpsRecord): Promise<void> {
  for (const old of await store.supersede(row.number, { id: row.id }, unit.now)) {
    unit.append({
      type: 'wps.superseded',
      subjectType: 'wps',
      subjectId: old.id,
      version: old.version + 1,
      before: { state: 'approved' },
      after: { state: 'superseded', byRevision: row.revision },
    });
    await tellRunning(store, unit, { old, row });
  }
}

/** Work under the revision that ends goes on under it; its cell is told, and the coordinator decides. */
async function tellRunning(
  store: Store,
  unit: Unit,
  { old, row }: { old: { id: string; revision: number }; row: WpsRecord },
): Promise<void> {
  for (const step of await store.running(old.id)) {
    unit.append({
      type: 'jobStep.procedureRevised',
      subjectType: 'jobStep',
      subjectId: step.id,
      version: step.version,
      cellId: step.cellId,
      before: { procedure: `${row.number} r${old.revision}` },
      after: { procedure: `${row.number} r${row.revision}` },
      reason: row.changeNote || null,
    });
  }
}

/** One draft of a number at a time: two would race for the same approval. */
async function nextRevision(store: Store, row: WpsRecord): Promise<number> {
  const revisions = await store.revisions(row.number);
  const draft = revisions.find(({ state }) => state === 'draft');
  if (draft !== undefined) {
    throw new Refusal(
      'NOT_NOW',
      `${row.number} has a draft already, revision ${draft.revision}. Finish that one, or withdraw it.`,
    );
  }
  return Math.max(...revisions.map(({ revision }) => revision)) + 1;
}

function append(
  unit: Unit,
  type: 'wps.approved' | 'wps.withdrawn',
  row: WpsRecord,
  extra: { reason?: string; meaning?: 'approved' },
): void {
  const state = type === 'wps.approved' ? 'approved' : 'withdrawn';
  unit.append({
    type,
    subjectType: 'wps',
    subjectId: row.id,
    version: row.version + 1,
    before: { state: row.state },
    after: { state, number: row.number, revision: row.revision },
    ...extra,
  });
}
