import type { ToolPoint } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';

export interface ToolPointRow {
  readonly id: string;
  readonly kind: string;
  readonly good: boolean | null;
  readonly note: string;
  readonly at: Date;
  readonly personCode: string;
}

interface PartsRow extends Omit<ToolPoint['partsSince'][number], 'from' | 'to'> {
  readonly from: Date | string;
  readonly to: Date | string;
}

/** So many jobs are listed; who made more since the last check has a larger question than which parts. */
const listedJobs = 100;

/** Knocks and checks of a robot's tool point, and what was counted there. */
export function toolPointReader(db: Db) {
  return {
    async robot(cellId: string) {
      return db.cell.findUnique({ where: { id: cellId }, select: { code: true, kind: true } });
    },
    /** Oldest first. */
    async entries(cellId: string): Promise<ToolPointRow[]> {
      return db.$queryRaw<ToolPointRow[]>`
        SELECT t."id", t."kind", t."good", t."note", t."at", p."code" AS "personCode"
        FROM "ToolPointEntry" t JOIN "Person" p ON p."id" = t."personId"
        WHERE t."cellId" = ${cellId} ORDER BY t."at", t."id"`;
    },
    async partsSince(cellId: string, since: Date | null): Promise<ToolPoint['partsSince']> {
      const after = since === null ? Prisma.empty : Prisma.sql`AND rc."happenedAt" > ${since}`;
      const rows = await db.$queryRaw<PartsRow[]>`
        SELECT j."number" AS "jobNumber", p."number" AS "partNumber", SUM(rc."good") AS "good",
          SUM(rc."rework") AS "rework", SUM(rc."scrap") AS "scrap", MIN(rc."happenedAt") AS "from",
          MAX(rc."happenedAt") AS "to"
        FROM "RunCount" rc JOIN "Run" ru ON ru."id" = rc."runId" JOIN "JobStep" js ON js."id" = ru."jobStepId"
        JOIN "Job" j ON j."id" = js."jobId" JOIN "Revision" r ON r."id" = j."revisionId"
        JOIN "Part" p ON p."id" = r."partId"
        WHERE ru."cellId" = ${cellId} ${after}
        GROUP BY j."number", p."number" ORDER BY MAX(rc."happenedAt") DESC LIMIT ${listedJobs}`;
      return rows.map(({ from, to, good, rework, scrap, ...row }) => ({
        ...row,
        ...{ good: Number(good), rework: Number(rework), scrap: Number(scrap) },
        ...{ from: new Date(from).toISOString(), to: new Date(to).toISOString() },
      }));
    },
  };
}

export function toolPointWriter(tx: TransactionClient) {
  return {
    ...toolPointReader(tx),
    async add(row: {
      id: string;
      cellId: string;
      kind: 'knock' | 'check';
      good: boolean | null;
      note: string;
      at: Date;
      personId: string;
    }): Promise<void> {
      await tx.toolPointEntry.create({ data: row });
    },
  };
}
