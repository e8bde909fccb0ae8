import type { BodyOf, Ncr, quality, QueryOf } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { finishWhenReady } from '../orders/finish.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { namesOf } from './names.js';
import {
  refuseClosed,
  refuseClosing,
  refuseOwnFinding,
  refuseRaise,
  refuseTooMany,
  refuseWithoutPaper,
} from './ncr-refusals.js';
import { effectOf, quarantinedOf, stateOf, undecidedOf } from './ncr-rules.js';
import { ncrReader, ncrWriter, type NcrRecord } from './ncr-store.js';

type Routes = typeof quality;
type Db = Parameters<typeof ncrReader>[0];
type Writer = ReturnType<typeof ncrWriter>;
type Files = Pick<FilesService, 'useIn'>;

/** NCRs from the raising at the cell to the closing. */
export function ncrService(foundation: Foundation, files: Files) {
  return { ...reading(foundation), ...raising(foundation, files), ...deciding(foundation) };
}

function reading({ database }: Foundation) {
  const db = database.reader;
  return {
    async ncrs(query: QueryOf<Routes['ncrs']>): Promise<{ ncrs: Ncr[]; total: number }> {
      const { state, limit, offset, ...rest } = query;
      const store = ncrReader(db);
      if (state === undefined || state === 'closed') {
        const closed = state === 'closed' ? true : undefined;
        const { ncrs, total } = await store.ncrs({ ...rest, closed, take: limit, skip: offset });
        return { ncrs: await viewsOf(db, ncrs), total };
      }
      // Few are not closed, and which of them wait for a decision follows from their parts.
      const { ncrs } = await store.ncrs({ ...rest, closed: false });
      const some = ncrs.filter((ncr) => stateOf(ncr) === state);
      const shown = some.slice(offset, offset + limit);
      return { ncrs: await viewsOf(db, shown), total: some.length };
    },
    async ncr(id: string): Promise<Ncr> {
      return viewOf(db, id);
    },
  };
}

function raising({ uow, newId }: Foundation, files: Files) {
  return {
    /** The parts are taken out of the good ones at once, or are kept beside them where they are not counted. */
    async raiseNcr(
      actor: Actor,
      jobStepId: string,
      input: BodyOf<Routes['raiseNcr']>,
    ): Promise<Ncr> {
      return uow.write(actor, async (unit) => {
        const store = ncrWriter(unit.tx);
        const person = actingPerson(actor);
        const step = await store.stepOfJob(jobStepId);
        if (step === null) throw notFound('step of a job', jobStepId, 'params.jobStepId');
        refuseRaise(step, input);
        const { counted, photoIds = [], ...fields } = input;
        const [id, number] = [newId(), await store.nextNumber()];
        await store.add({
          ...{ id, number, jobId: step.jobId, jobStepId, runId: step.runId },
          ...{ ...fields, raisedBy: person.id, raisedAt: unit.now },
        });
        await files.useIn(unit, { type: 'nonconformance', id }, photoIds);
        const taken = counted ? input.quantity : 0;
        await store.moveParts(jobStepId, { good: -taken, scrap: 0, quarantined: input.quantity });
        unit.append({
          type: 'ncr.raised',
          ...{ subjectType: 'nonconformance', subjectId: id, version: 1, cellId: step.cellId },
          before: { goodCount: step.goodCount, quarantined: step.quarantinedCount },
          after: {
            ...{ number, jobNumber: step.jobNumber, ...input },
            goodCount: step.goodCount - taken,
            quarantined: step.quarantinedCount + input.quantity,
          },
          meaning: 'made',
        });
        return viewOf(unit.tx, id);
      });
    },
  };
}

function deciding({ uow, newId }: Foundation) {
  return {
    async decideNcr(actor: Actor, id: string, input: BodyOf<Routes['decideNcr']>): Promise<Ncr> {
      return uow.write(actor, async (unit) => {
        const store = ncrWriter(unit.tx);
        const person = actingPerson(actor);
        const ncr = await current(unit, id, input.expectedVersion);
        refuseOwnFinding(ncr, person);
        refuseTooMany(ncr, input.quantity);
        await refuseWithoutPaper(store, input);
        const { disposition, quantity, reason } = input;
        const wpsId = disposition === 'rework' ? input.wpsId : null;
        const concession = disposition === 'concession' ? input.concession : null;
        await store.addDecision({
          ...{ id: newId(), ncrId: id, disposition, quantity, wpsId, concession, reason },
          ...{ decidedBy: person.id, decidedAt: unit.now },
        });
        await store.setNcr({ id, version: ncr.version });
        await settle(store, ncr, effectOf({ disposition, quantity }));
        append(unit, ncr, {
          ...{ type: 'ncr.decided', meaning: 'approved' },
          after: { disposition, quantity, wpsId, concession },
          reason,
        });
        return viewOf(unit.tx, id);
      });
    },

    async inspectRework(
      actor: Actor,
      at: { ncrId: string; decisionId: string },
      input: BodyOf<Routes['inspectRework']>,
    ): Promise<Ncr> {
      return uow.write(actor, async (unit) => {
        const store = ncrWriter(unit.tx);
        const person = actingPerson(actor);
        const ncr = await current(unit, at.ncrId, input.expectedVersion);
        const decision = reworkOf(ncr, at.decisionId);
        const { accepted, note } = input;
        refuseAccepted(decision.quantity, accepted);
        await store.setInspection(decision.id, {
          ...{ accepted, inspectedBy: person.id, inspectedAt: unit.now, inspectNote: note },
        });
        await store.setNcr({ id: ncr.id, version: ncr.version });
        await settle(store, ncr, { good: accepted, scrap: 0 });
        append(unit, ncr, {
          ...{ type: 'ncr.inspected', meaning: 'checked' },
          after: { accepted, turnedDown: decision.quantity - accepted },
          reason: note,
        });
        return viewOf(unit.tx, ncr.id);
      });
    },

    async closeNcr(actor: Actor, id: string, input: BodyOf<Routes['closeNcr']>): Promise<Ncr> {
      return uow.write(actor, async (unit) => {
        const store = ncrWriter(unit.tx);
        const person = actingPerson(actor);
        const ncr = await current(unit, id, input.expectedVersion);
        refuseClosing(ncr);
        const closing = { closedBy: person.id, closedAt: unit.now, closeNote: input.note };
        await store.setNcr({ id, version: ncr.version }, closing);
        append(unit, ncr, {
          ...{ type: 'ncr.closed', meaning: 'approved' },
          after: { state: 'closed' },
          reason: input.note,
        });
        await finishWhenReady(unit, ncr.jobId, unit.now);
        return viewOf(unit.tx, id);
      });
    },
  };
}

/** The NCR as it stands, not closed, or a refusal that shows it. */
async function current(unit: Unit, id: string, expected: number): Promise<NcrRecord> {
  const ncr = await ncrReader(unit.tx).ncr(id);
  if (ncr === null) throw notFound('NCR', id, 'params.ncrId');
  if (ncr.version !== expected) throw stale('NCR', await viewOf(unit.tx, id), expected);
  refuseClosed(ncr);
  return ncr;
}

/** Parts leave quarantine as good ones or as scrap. */
async function settle(
  store: Writer,
  { jobStepId }: NcrRecord,
  { good, scrap }: { good: number; scrap: number },
): Promise<void> {
  if (jobStepId === null || good + scrap === 0) return;
  await store.moveParts(jobStepId, { good, scrap, quarantined: -good - scrap });
}

function append(
  unit: Unit,
  ncr: NcrRecord,
  event: { type: string; meaning: 'approved' | 'checked'; after: object; reason: string },
): void {
  unit.append({
    ...event,
    ...{ subjectType: 'nonconformance', subjectId: ncr.id, version: ncr.version + 1 },
    ...(ncr.cellId === null ? {} : { cellId: ncr.cellId }),
    before: { state: stateOf(ncr), undecided: undecidedOf(ncr) },
    reason: event.reason === '' ? null : event.reason,
  });
}

function reworkOf(ncr: NcrRecord, decisionId: string) {
  const decision = ncr.decisions.find(({ id }) => id === decisionId);
  if (decision === undefined) throw notFound('decision', decisionId, 'params.decisionId');
  if (decision.disposition === 'rework' && decision.accepted === null) return decision;
  throw new Refusal(
    'NOT_NOW',
    decision.disposition === 'rework'
      ? `This rework of NCR ${ncr.number} is inspected already.`
      : `Only rework is inspected again; this decision is ${decision.disposition}.`,
  );
}

function refuseAccepted(quantity: number, accepted: number): void {
  if (accepted <= quantity) return;
  throw refuseField(
    'NOT_NOW',
    `${quantity} parts were reworked; ${accepted} cannot be accepted.`,
    'body.accepted',
    accepted,
    `0 to ${quantity}`,
  );
}

async function viewOf(db: Db, id: string): Promise<Ncr> {
  const row = await ncrReader(db).ncr(id);
  const [view] = row === null ? [] : await viewsOf(db, [row]);
  if (view === undefined) throw notFound('NCR', id, 'params.ncrId');
  return view;
}

async function viewsOf(db: Db, rows: readonly NcrRecord[]): Promise<Ncr[]> {
  const decisions = rows.flatMap((row) => row.decisions);
  const labels = await ncrReader(db).wpsLabels(decisions.map(({ wpsId }) => wpsId));
  const nameOf = await namesOf(db, [
    ...rows.flatMap(({ raisedBy, closedBy }) => [raisedBy, closedBy]),
    ...decisions.flatMap(({ decidedBy, inspectedBy }) => [decidedBy, inspectedBy]),
  ]);
  return rows.map((row) => ({
    ...row,
    state: stateOf(row),
    undecided: undecidedOf(row),
    quarantined: quarantinedOf(row),
    raisedBy: nameOf(row.raisedBy),
    raisedAt: row.raisedAt.toISOString(),
    closedBy: row.closedBy && nameOf(row.closedBy),
    closedAt: row.closedAt?.toISOString() ?? null,
    decisions: row.decisions.map(({ wpsId, ...one }) => ({
      ...one,
      wpsLabel: wpsId && (labels.get(wpsId) ?? wpsId),
      decidedBy: nameOf(one.decidedBy),
      decidedAt: one.decidedAt.toISOString(),
      inspectedBy: one.inspectedBy && nameOf(one.inspectedBy),
      inspectedAt: one.inspectedAt?.toISOString() ?? null,
    })),
  }));
}
