import { WpsRanges, Wpqr, Wps } from '@tackboard/contract';
import type { Prisma } from '../db/generated/client.js';

type WpqrRow = Prisma.WpqrGetPayload<{ include: typeof withSupports }>;
type WpsRow = Prisma.WpsGetPayload<{ include: typeof withWpqrs }>;
type WpsState = Wps['state'];

const withSupports = {
  supports: { select: { wps: { select: { number: true, state: true } } } },
} as const;
const withWpqrs = {
  supports: { select: { wpqr: { select: { id: true, number: true, ranges: true } } } },
} as const;

export type WpqrFields = Omit<Wpqr, 'id' | 'version' | 'wpsNumbers'>;
/** `approvedWps` are the numbers of approved procedures that rest on the record. */
export type WpqrRecord = Wpqr & { approvedWps: string[] };

export interface WpsFields {
  readonly title: string;
  readonly code: string;
  readonly ranges: WpsRanges;
  readonly joint: Wps['joint'];
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
  readonly records: readonly { id: string; number: string; ranges: WpsRanges }[];
}

const typedJson = Wpqr.pick({
  testPiece: true,
  testedValues: true,
  testResults: true,
  ranges: true,
});

function toWpqr(row: WpqrRow): WpqrRecord {
  const { supports, fileName: _fileName, createdAt: _createdAt, ...fields } = row;
  const numbers = (only: (state: WpsState) => boolean) => [
    ...new Set(supports.filter(({ wps }) => only(wps.state)).map(({ wps }) => wps.number)),
  ];
  return {
    ...fields,
    ...typedJson.parse(row),
    mechanisation: Wpqr.shape.mechanisation.parse(row.mechanisation),
    wpsNumbers: numbers(() => true).sort(),
    approvedWps: numbers((state) => state === 'approved').sort(),
  };
}

function toWps(row: WpsRow): WpsRecord {
  const { supports, writtenBy, approvedBy, ...fields } = row;
  return {
    ...fields,
    ranges: WpsRanges.parse(row.ranges),
    joint: Wps.shape.joint.parse(row.joint),
    writtenById: writtenBy,
    approvedById: approvedBy,
    records: supports
      .map(({ wpqr }) => ({ ...wpqr, ranges: WpsRanges.parse(wpqr.ranges) }))
      .toSorted((a, b) => a.number.localeCompare(b.number)),
  };
}

export function reader(db: Prisma.TransactionClient) {
  return {
    async wpqrs(): Promise<WpqrRecord[]> {
      const rows = await db.wpqr.findMany({ include: withSupports, orderBy: { number: 'asc' } });
      return rows.map(toWpqr);
    },
    async wpqr(id: string): Promise<WpqrRecord | null> {
      const row = await db.wpqr.findUnique({ where: { id }, include: withSupports });
      return row && toWpqr(row);
    },
    async wpqrIds(ids: readonly string[]): Promise<Set<string>> {
      const rows = await db.wpqr.findMany({
        where: { id: { in: [...ids] } },
        select: { id: true },
      });
      return new Set(rows.map(({ id }) => id));
    },
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
    async approved(numbers: readonly string[]) {
      const rows = await db.wps.findMany({
        where: { number: { in: [...numbers] }, state: 'approved' },
        select: { id: true, number: true, revision: true, title: true, ranges: true },
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

export function writer(tx: Prisma.TransactionClient) {
  return {
    ...reader(tx),
    async addWpqr(id: string, fields: WpqrFields, createdAt: Date): Promise<void> {
      await tx.wpqr.create({ data: { id, ...fields, createdAt } });
    },
    /** False when the row has moved on. */
    async setWpqr(at: { id: string; version: number }, fields: WpqrFields): Promise<boolean> {
      const { count } = await tx.wpqr.updateMany({
        where: at,
        data: { ...fields, version: { increment: 1 } },
      });
      return count === 1;
    },
    async addWps(
      row: WpsFields & { id: string; number: string; revision: number; writtenById: string },
      createdAt: Date,
    ): Promise<void> {
      const { writtenById, ...fields } = row;
      await tx.wps.create({ data: { ...fields, writtenBy: writtenById, createdAt } });
    },
    async setDraft(at: { id: string; version: number }, fields: WpsFields): Promise<boolean> {
      const { count } = await tx.wps.updateMany({
        where: { ...at, state: 'draft' },
        data: { ...fields, version: { increment: 1 } },
      });
      return count === 1;
    },
    async setSupports(wpsId: string, wpqrIds: readonly string[]): Promise<void> {
      await tx.wpsSupport.deleteMany({ where: { wpsId } });
      await tx.wpsSupport.createMany({ data: wpqrIds.map((wpqrId) => ({ wpsId, wpqrId })) });
    },
    async approve(
      at: { id: string; version: number },
      by: { approvedBy: string; approvedAt: Date },
    ): Promise<boolean> {
      const { count } = await tx.wps.updateMany({
        where: { ...at, state: 'draft' },
        data: { ...by, state: 'approved', version: { increment: 1 } },
      });
      return count === 1;
    },
    /** Every approved revision of the number but the one named; answers what was superseded. */
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
    async withdraw(at: { id: string; version: number }): Promise<boolean> {
      const { count } = await tx.wps.updateMany({
        where: at,
        data: { state: 'withdrawn', version: { increment: 1 } },
      });
      return count === 1;
    },
  };
}
