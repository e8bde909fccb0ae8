import { Wpqr, type Wps } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

const withSupports = {
  supports: { select: { wps: { select: { number: true, state: true } } } },
} as const;
type WpqrRow = Prisma.WpqrGetPayload<{ include: typeof withSupports }>;
type WpsState = Wps['state'];

export type WpqrFields = Omit<Wpqr, 'id' | 'version' | 'wpsNumbers'>;
/** `approvedWps` are the numbers of approved procedures that rest on the record. */
export type WpqrRecord = Wpqr & { approvedWps: string[] };

const typedJson = Wpqr.pick({
  testPiece: true,
  testedValues: true,
  testResults: true,
  ranges: true,
});

function toWpqr(row: WpqrRow): WpqrRecord {
  const { supports, ...fields } = row;
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

export function wpqrReader(db: Db) {
  return {
    async wpqrs(): Promise<WpqrRecord[]> {
      const rows = await db.wpqr.findMany({ include: withSupports, orderBy: { number: 'asc' } });
      return rows.map(toWpqr);
    },
    async wpqr(id: string): Promise<WpqrRecord | null> {
      const row = await db.wpqr.findUnique({ where: { id }, include: withSupports });
      return row && toWpqr(row);
    },
    async wpqrNumberTaken(number: string, butId: string | null): Promise<boolean> {
      const row = await db.wpqr.findUnique({ where: { number }, select: { id: true } });
      return row !== null && row.id !== butId;
    },
    async wpqrIds(ids: readonly string[]): Promise<Set<string>> {
      const rows = await db.wpqr.findMany({
        where: { id: { in: [...ids] } },
        select: { id: true },
      });
      return new Set(rows.map(({ id }) => id));
    },
  };
}

export function wpqrWriter(tx: TransactionClient) {
  return {
    ...wpqrReader(tx),
    async addWpqr(id: string, fields: WpqrFields, createdAt: Date): Promise<void> {
      await tx.wpqr.create({ data: { id, ...fields, createdAt } });
    },
    /** The version in the question keeps a row that has moved on from being overwritten. */
    async setWpqr(at: { id: string; version: number }, fields: WpqrFields): Promise<void> {
      await tx.wpqr.update({ where: at, data: { ...fields, version: { increment: 1 } } });
    },
  };
}
