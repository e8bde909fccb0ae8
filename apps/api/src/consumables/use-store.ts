import type { LotUse } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import type { LoadSpan } from './lots-used.js';

interface StepRow extends Pick<
  LotUse,
  'jobId' | 'jobNumber' | 'partNumber' | 'revision' | 'customerName' | 'stepNumber' | 'quantity'
> {
  readonly jobStepId: string;
}
export interface RunRow {
  readonly jobStepId: string;
  readonly cellId: string;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
}
interface CountRow {
  readonly jobStepId: string;
  readonly cellId: string;
  readonly runStartedAt: Date;
  readonly at: Date;
  readonly good: number;
  readonly scrap: number;
}
export interface LoadRow
  extends
    LoadSpan,
    Pick<
      LotUse,
      'lotId' | 'lotNumber' | 'kind' | 'itemName' | 'designation' | 'certificate' | 'cellCode'
    > {}

const loadColumns = Prisma.sql`
  ll."cellId", ll."loadedAt", ll."unloadedAt", ll."lotId", l."number" AS "lotNumber", ll."kind",
  i."name" AS "itemName", i."designation", l."certificate", c."code" AS "cellCode"`;
const loadTables = Prisma.sql`
  "LotLoad" ll JOIN "Lot" l ON l."id" = ll."lotId" JOIN "Item" i ON i."id" = l."itemId"
  JOIN "Cell" c ON c."id" = ll."cellId"`;

/** What hung where and what was welded meanwhile. */
export function useReader(db: Db) {
  return {
    async jobExists(id: string): Promise<boolean> {
      return (await db.job.findUnique({ where: { id }, select: { id: true } })) !== null;
    },
    async loadsOfLot(lotId: string): Promise<LoadRow[]> {
      return db.$queryRaw<LoadRow[]>`
        SELECT ${loadColumns} FROM ${loadTables} WHERE ll."lotId" = ${lotId} ORDER BY ll."loadedAt"`;
    },
    /** Loads at some cells that still hung there after `from`. */
    async loadsAt(cellIds: readonly string[], from: Date): Promise<LoadRow[]> {
      if (cellIds.length === 0) return [];
      return db.$queryRaw<LoadRow[]>`
        SELECT ${loadColumns} FROM ${loadTables}
        WHERE ll."cellId" IN (${Prisma.join([...cellIds])})
          AND (ll."unloadedAt" IS NULL OR ll."unloadedAt" > ${from})
        ORDER BY ll."loadedAt"`;
    },
    async runsOfJob(jobId: string): Promise<RunRow[]> {
      return db.$queryRaw<RunRow[]>`
        SELECT ru."jobStepId", ru."cellId", ru."startedAt", ru."endedAt" FROM "Run" ru
        JOIN "JobStep" js ON js."id" = ru."jobStepId" WHERE js."jobId" = ${jobId} ORDER BY ru."startedAt"`;
    },
    /** All runs of the steps that were welded at a cell while a load hung there. */
    async runsDuring({ cellId, loadedAt, unloadedAt }: LoadSpan): Promise<RunRow[]> {
      const before =
        unloadedAt === null ? Prisma.empty : Prisma.sql`AND "startedAt" < ${unloadedAt}`;
      return db.$queryRaw<RunRow[]>`
        SELECT "jobStepId", "cellId", "startedAt", "endedAt" FROM "Run" WHERE "jobStepId" IN (
          SELECT "jobStepId" FROM "Run"
          WHERE "cellId" = ${cellId} AND ("endedAt" IS NULL OR "endedAt" > ${loadedAt}) ${before})
        ORDER BY "startedAt"`;
    },
    async counts(jobStepIds: readonly string[]): Promise<CountRow[]> {
      if (jobStepIds.length === 0) return [];
      return db.$queryRaw<CountRow[]>`
        SELECT ru."jobStepId", ru."cellId", ru."startedAt" AS "runStartedAt", rc."happenedAt" AS "at", rc."good",
          rc."scrap"
        FROM "RunCount" rc JOIN "Run" ru ON ru."id" = rc."runId"
        WHERE ru."jobStepId" IN (${Prisma.join([...jobStepIds])})
        ORDER BY rc."happenedAt", rc."id"`;
    },
    async steps(jobStepIds: readonly string[]): Promise<StepRow[]> {
      if (jobStepIds.length === 0) return [];
      return db.$queryRaw<StepRow[]>`
        SELECT js."id" AS "jobStepId", js."jobId", j."number" AS "jobNumber", p."number" AS "partNumber",
          r."label" AS "revision", cu."name" AS "customerName", js."number" AS "stepNumber", j."quantity"
        FROM "JobStep" js JOIN "Job" j ON j."id" = js."jobId" JOIN "Order" o ON o."id" = j."orderId"
        JOIN "Customer" cu ON cu."id" = o."customerId" JOIN "Revision" r ON r."id" = j."revisionId"
        JOIN "Part" p ON p."id" = r."partId"
        WHERE js."id" IN (${Prisma.join([...jobStepIds])}) ORDER BY j."number", js."number"`;
    },
  };
}
