import { noWpsDetails, WpsDetails, WpsRanges, Wpqr, Wps } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { SupportingRecord } from './breaches.js';
import type { ComparedRecord } from './comparisons.js';

type WpsRow = Prisma.WpsGetPayload<{ include: typeof withWpqrs }>;
type WpsState = Wps['state'];

const withWpqrs = {
  supports: {
    select: {
      wpqr: {
        select: {
          id: true,
          number: true,
          code: true,
          edition: true,
          level: true,
          process: true,
          mechanisation: true,
          filler: true,
          gas: true,
          transfer: true,
          testPiece: true,
          testedValues: true,
          ranges: true,
          testResults: true,
        },
      },
    },
  },
} as const;

const recordJson = Wpqr.pick({
  mechanisation: true,
  testPiece: true,
  testedValues: true,
  ranges: true,
});

/** Whoever did one of these had a hand in the text of a draft. */
const writingEvents = ['wps.written', 'wps.changed', 'wps.revised'] as const;

export interface WpsFields {
  readonly title: string;
  readonly code: string;
  readonly ranges: WpsRanges;
  readonly joint: Wps['joint'];
  readonly details: WpsDetails;
  readonly technique: string;
  readonly changeNote: string;
}
/** A procedure revision as it stands in the database; people by id. */
export interface WpsRecord extends WpsFields {
  readonly id: string;
  readonly version: number;
  readonly number: string;
  readonly revision: number;
  readonly state: WpsState;
  readonly writtenById: string;
  readonly createdAt: Date;
  readonly approvedById: string | null;
  readonly approvedAt: Date | null;
  readonly supersededAt: Date | null;
  readonly records: readonly (SupportingRecord &
    ComparedRecord & { id: string; failedTests: string[] })[];
}

function toWps(row: WpsRow): WpsRecord {
  const { supports, writtenBy, approvedBy, ...fields } = row;
  return {
    ...fields,
    ranges: WpsRanges.parse(row.ranges),
    joint: Wps.shape.joint.parse(row.joint),
    details: row.details === null ? noWpsDetails : WpsDetails.parse(row.details),
    writtenById: writtenBy,
    approvedById: approvedBy,
    records: supports
      .map(({ wpqr: { testResults, ...record } }) => ({
        ...record,
        ...recordJson.parse(record),
        failedTests: Wpqr.shape.testResults
          .parse(testResults)
          .filter(({ outcome }) => outcome === 'failed')
          .map(({ test }) => test),
      }))
      .toSorted((a, b) => a.number.localeCompare(b.number)),
  };
}

export function proceduresReader(db: Db) {
  return {
    ...usageReader(db),
    async wpss(state: WpsState | undefined): Promise<WpsRecord[]> {
      const rows = await db.wps.findMany({
        where: state === undefined ? {} : { state },
        include: withWpqrs,
        orderBy: [{ number: 'asc' }, { revision: 'desc' }],
      });
      return rows.map(toWps);
    },
    async wps(id: string): Promise<WpsRecord | null> {
      const row = await db.wps.findUnique({ where: { id }, include: withWpqrs });
      return row && toWps(row);
    },
    async revisions(number: string) {
      return db.wps.findMany({
        where: { number },
        select: { id: true, revision: true, state: true },
        orderBy: { revision: 'desc' },
      });
    },
    /** Of the numbers, or of all when none are named. */
    async approved(numbers?: readonly string[]) {
      const rows = await db.wps.findMany({
        where: {
          state: 'approved',
          ...(numbers === undefined ? {} : { number: { in: [...numbers] } }),
        },
        orderBy: { number: 'asc' },
        select: { id: true, number: true, revision: true, title: true, code: true, ranges: true },
      });
      return rows.map((row) => ({ ...row, ranges: WpsRanges.parse(row.ranges) }));
    },
    async names(ids: readonly string[]): Promise<Map<string, string>> {
      const rows = await db.person.findMany({
        where: { id: { in: [...new Set(ids)] } },
        select: { id: true, name: true },
      });
      return new Map(rows.map(({ id, name }) => [id, name]));
    },
    /** Whether the person wrote or changed this draft. */
    async hasWritten(wpsId: string, personId: string): Promise<boolean> {
      const event = await db.event.findFirst({
        where: {
          subjectType: 'wps',
          subjectId: wpsId,
          actorId: personId,
          type: { in: [...writingEvents] },
        },
        select: { seq: true },
      });
      return event !== null;
    },
  };
}

/** Who works, or is to work, by a procedure. */
function usageReader(db: Db) {
  return {
    /** Steps in work that were pulled under this revision. */
    async running(wpsId: string) {
      return db.jobStep.findMany({
        where: { wpsId, state: 'held' },
        select: { id: true, version: true, cellId: true },
      });
    },
    async usedBy(number: string): Promise<Wps['usedBy']> {
      const steps = await db.step.count({
        where: { wpsNumber: number, revision: { state: { not: 'superseded' } } },
      });
      const waiting = await db.jobStep.findMany({
        where: { step: { wpsNumber: number }, state: { in: ['blocked', 'waiting', 'held'] } },
        select: {
          job: {
            select: { number: true, revision: { select: { part: { select: { number: true } } } } },
          },
          cell: { select: { code: true } },
        },
        orderBy: { job: { number: 'asc' } },
      });
      return {
        steps,
        waitingJobs: waiting.map(({ job, cell }) => ({
          jobNumber: job.number,
          partNumber: job.revision.part.number,
          cellCode: cell.code,
        })),
      };
    },
  };
}

interface At {
  readonly id: string;
  readonly version: number;
}

export function proceduresWriter(tx: TransactionClient) {
  return {
    ...proceduresReader(tx),
    async addWps(
      row: WpsFields & { id: string; number: string; revision: number; writtenById: string },
      createdAt: Date,
    ): Promise<void> {
      const { writtenById, ...fields } = row;
      await tx.wps.create({ data: { ...fields, writtenBy: writtenById, createdAt } });
    },
    async setDraft(at: At, fields: WpsFields): Promise<void> {
      await tx.wps.update({
        where: { ...at, state: 'draft' },
        data: { ...fields, version: { increment: 1 } },
      });
    },
    async setSupports(wpsId: string, wpqrIds: readonly string[]): Promise<void> {
      await tx.wpsSupport.deleteMany({ where: { wpsId } });
      const ids = [...new Set(wpqrIds)];
      await tx.wpsSupport.createMany({ data: ids.map((wpqrId) => ({ wpsId, wpqrId })) });
    },
    async approve(at: At, by: { approvedBy: string; approvedAt: Date }): Promise<void> {
      await tx.wps.update({
        where: { ...at, state: 'draft' },
        data: { ...by, state: 'approved', version: { increment: 1 } },
      });
    },
    /** Takes every approved revision of the number but the one named out of use; answers which. */
    async supersede(number: string, but: { id: string }, supersededAt: Date) {
      const rows = await tx.wps.findMany({
        where: { number, state: 'approved', id: { not: but.id } },
        select: { id: true, version: true, revision: true },
      });
      await tx.wps.updateMany({
        where: { id: { in: rows.map(({ id }) => id) } },
        data: { state: 'superseded', supersededAt, version: { increment: 1 } },
      });
      return rows;
    },
    async withdraw(at: At): Promise<void> {
      await tx.wps.update({
        where: at,
        data: { state: 'withdrawn', version: { increment: 1 } },
      });
    },
  };
}
