import { InspectionPoint } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

/** A point with people by id. */
export type PointRecord = Omit<InspectionPoint, 'openedAt' | 'dueAt' | 'closedAt'> & {
  readonly cellId: string;
  readonly openedAt: Date;
  readonly dueAt: Date | null;
  readonly closedAt: Date | null;
};

const pointIncludes = {
  jobStep: {
    select: {
      number: true,
      cellId: true,
      jobId: true,
      step: { select: { name: true } },
      cell: { select: { code: true } },
      job: {
        select: { number: true, revision: { select: { part: { select: { number: true } } } } },
      },
    },
  },
} as const satisfies Prisma.InspectionPointInclude;
type PointRow = Prisma.InspectionPointGetPayload<{ include: typeof pointIncludes }>;

const Stored = InspectionPoint.pick({ kind: true, result: true });

function toPoint({ jobStep, ...row }: PointRow): PointRecord {
  const { number, cellId, jobId, step, cell, job } = jobStep;
  return {
    ...row,
    ...Stored.parse(row),
    ...{ stepNumber: number, stepName: step.name, cellId, cellCode: cell.code, jobId },
    ...{ jobNumber: job.number, partNumber: job.revision.part.number },
  };
}

export function pointsReader(db: Db) {
  return {
    async points(filter: { jobId?: string | undefined }): Promise<PointRecord[]> {
      const { jobId } = filter;
      const rows = await db.inspectionPoint.findMany({
        where: jobId === undefined ? { result: null } : { jobStep: { jobId } },
        include: pointIncludes,
        orderBy: [{ openedAt: 'desc' }, { id: 'desc' }],
      });
      return rows.map(toPoint);
    },
    async point(id: string): Promise<PointRecord | null> {
      const row = await db.inspectionPoint.findUnique({ where: { id }, include: pointIncludes });
      return row && toPoint(row);
    },
    /** Witness points whose time is over and that nobody has closed. */
    async overdue(now: Date): Promise<PointRecord[]> {
      const rows = await db.inspectionPoint.findMany({
        where: { result: null, kind: 'witness', dueAt: { lte: now } },
        include: pointIncludes,
      });
      return rows.map(toPoint);
    },
  };
}

export function pointsWriter(tx: TransactionClient) {
  return {
    ...pointsReader(tx),
    async open(row: {
      id: string;
      jobStepId: string;
      kind: 'hold' | 'witness';
      openedAt: Date;
      dueAt: Date | null;
    }): Promise<void> {
      await tx.inspectionPoint.create({ data: row });
    },
    async close(
      at: { id: string; version: number },
      fields: {
        result: 'passed' | 'waived' | 'timedOut';
        closedBy: string | null;
        closedAt: Date;
        note: string;
      },
    ): Promise<void> {
      await tx.inspectionPoint.update({
        where: at,
        data: { ...fields, version: { increment: 1 } },
      });
    },
  };
}
