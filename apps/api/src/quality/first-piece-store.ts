import {
  FirstPieceSize,
  imperfections,
  jointTypes,
  qualityLevels,
  type FirstPiece,
  type FirstPieceTask,
  type Weld,
} from '@tackboard/contract';
import { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { Circumstances } from './first-piece-rule.js';

/** A first piece with people by id. */
export type FirstPieceRecord = Omit<FirstPiece, 'signedAt' | 'qaSignedAt'> & {
  readonly runId: string;
  readonly cellId: string;
  readonly signedAt: Date;
  readonly qaSignedAt: Date | null;
};

/** The run that is checked, and what its parts are made with. */
export interface RunToCheck {
  readonly id: string;
  readonly jobStepId: string;
  readonly jobId: string;
  readonly partId: string;
  readonly stepNumber: number;
  readonly personId: string;
  readonly personCode: string;
  readonly cellId: string;
  readonly twoPersons: boolean;
  readonly endedAt: Date | null;
  readonly circumstances: Circumstances;
  readonly welds: readonly CheckedWeld[];
}
type CheckedWeld = Pick<
  Weld,
  'number' | 'jointType' | 'throatMm' | 'legMm' | 'sizeUnderMm' | 'sizeOverMm' | 'qualityLevel'
>;

const runIncludes = {
  person: { select: { code: true } },
  cell: { select: { code: true } },
  setUp: {
    select: {
      programRevision: true,
      program: { select: { name: true, revision: true } },
      fixture: { select: { code: true } },
      wireItem: { select: { name: true } },
    },
  },
  jobStep: {
    select: {
      jobId: true,
      number: true,
      job: {
        select: {
          number: true,
          revisionId: true,
          revision: {
            select: {
              label: true,
              partId: true,
              part: { select: { number: true, twoPersons: true } },
            },
          },
        },
      },
    },
  },
} as const satisfies Prisma.RunInclude;
type RunRow = Prisma.RunGetPayload<{ include: typeof runIncludes }>;

function circumstancesOf(run: RunRow, wps: string | null): Circumstances {
  const { setUp, cell, jobStep } = run;
  const program = setUp?.program ?? null;
  return {
    partRevision: jobStep.job.revision.label,
    cellCode: cell.code,
    program:
      program === null
        ? null
        : `${program.name} revision ${setUp?.programRevision ?? program.revision}`,
    fixture: setUp?.fixture?.code ?? null,
    wire: setUp?.wireItem?.name ?? null,
    wps,
  };
}

const pieceIncludes = {
  run: {
    select: {
      cellId: true,
      cell: { select: { code: true } },
    },
  },
  jobStep: {
    select: {
      number: true,
      jobId: true,
      job: {
        select: {
          number: true,
          revision: { select: { part: { select: { number: true } } } },
        },
      },
    },
  },
} as const satisfies Prisma.FirstPieceInclude;
type PieceRow = Prisma.FirstPieceGetPayload<{ include: typeof pieceIncludes }>;

const OfWeld = z.object({ jointType: z.enum(jointTypes), qualityLevel: z.enum(qualityLevels) });

const Stored = z.object({
  scope: z.enum(['short', 'full']),
  reasons: z.array(z.string()),
  sizes: z.array(FirstPieceSize),
  visual: z.enum(['accepted', 'rejected']),
  imperfections: z.array(z.enum(imperfections)),
  qualityLevel: z.enum(qualityLevels),
  result: z.enum(['passed', 'failed', 'waitingQa']),
});

function toPiece({ run, jobStep, ...row }: PieceRow): FirstPieceRecord {
  return {
    ...row,
    ...Stored.parse(row),
    cellId: run.cellId,
    cellCode: run.cell.code,
    jobId: jobStep.jobId,
    jobNumber: jobStep.job.number,
    partNumber: jobStep.job.revision.part.number,
    stepNumber: jobStep.number,
  };
}

export function firstPieceReader(db: Db) {
  return { ...runReader(db), ...pieceReader(db) };
}

async function wpsLabel(db: Db, wpsId: string | null): Promise<string | null> {
  if (wpsId === null) return null;
  const row = await db.wps.findUnique({
    where: { id: wpsId },
    select: { number: true, revision: true },
  });
  return row && `${row.number} r${row.revision}`;
}

function runReader(db: Db) {
  return {
    async runToCheck(runId: string): Promise<RunToCheck | null> {
      const row = await db.run.findUnique({ where: { id: runId }, include: runIncludes });
      if (row === null) return null;
      const { jobStep } = row;
      const welds = await db.weld.findMany({
        where: { revisionId: jobStep.job.revisionId, stepNumber: jobStep.number },
        orderBy: { number: 'asc' },
      });
      return {
        id: row.id,
        jobStepId: row.jobStepId,
        jobId: jobStep.jobId,
        partId: jobStep.job.revision.partId,
        stepNumber: jobStep.number,
        personId: row.personId,
        personCode: row.person.code,
        cellId: row.cellId,
        twoPersons: jobStep.job.revision.part.twoPersons,
        endedAt: row.endedAt,
        circumstances: circumstancesOf(row, await wpsLabel(db, row.wpsId)),
        welds: welds.map((weld) => ({ ...weld, ...OfWeld.parse(weld) })),
      };
    },
    /** The newest passed first piece of the same step of the part in another job. */
    async lastGood({ partId, stepNumber, jobStepId }: RunToCheck) {
      const row = await db.firstPiece.findFirst({
        where: {
          result: 'passed',
          jobStepId: { not: jobStepId },
          jobStep: { number: stepNumber, job: { revision: { partId } } },
        },
        orderBy: [{ signedAt: 'desc' }, { id: 'desc' }],
        include: { run: { include: runIncludes } },
      });
      if (row === null) return null;
      const { run, signedAt: at } = row;
      const circumstances = circumstancesOf(run, await wpsLabel(db, run.wpsId));
      return { ...circumstances, at, jobNumber: run.jobStep.job.number };
    },
    /** Whether the person has made good parts of this step in a job before. */
    async knowsPart({ partId, stepNumber, jobStepId, personId }: RunToCheck): Promise<boolean> {
      const found = await db.run.findFirst({
        where: {
          personId,
          goodCount: { gt: 0 },
          jobStepId: { not: jobStepId },
          jobStep: { number: stepNumber, job: { revision: { partId } } },
        },
        select: { id: true },
      });
      return found !== null;
    },
    /** Whether the newest check made like this run has passed. */
    async passedLike(runId: string): Promise<FirstPieceTask['passed']> {
      const run = await db.run.findUniqueOrThrow({ where: { id: runId } });
      const { jobStepId, cellId, wpsId, setUpId } = run;
      const newest = await db.firstPiece.findFirst({
        where: { jobStepId, run: { cellId, wpsId, setUpId } },
        orderBy: [{ signedAt: 'desc' }, { id: 'desc' }],
        select: { result: true },
      });
      return newest?.result === 'passed';
    },
  };
}

function pieceReader(db: Db) {
  return {
    async piece(id: string): Promise<FirstPieceRecord | null> {
      const row = await db.firstPiece.findUnique({ where: { id }, include: pieceIncludes });
      return row && toPiece(row);
    },
    async pieces(filter: {
      jobStepId?: string | undefined;
      jobId?: string | undefined;
      result?: string | undefined;
      limit: number;
    }): Promise<{ pieces: FirstPieceRecord[]; total: number }> {
      const { jobStepId, jobId, result, limit } = filter;
      const where = {
        ...(jobStepId === undefined ? {} : { jobStepId }),
        ...(jobId === undefined ? {} : { jobStep: { jobId } }),
        ...(result === undefined ? {} : { result }),
      };
      const rows = await db.firstPiece.findMany({
        where,
        include: pieceIncludes,
        orderBy: [{ signedAt: 'desc' }, { id: 'desc' }],
        take: limit,
      });
      return { pieces: rows.map(toPiece), total: await db.firstPiece.count({ where }) };
    },
  };
}

export function firstPieceWriter(tx: TransactionClient) {
  return {
    ...firstPieceReader(tx),
    async add(row: Omit<Prisma.FirstPieceUncheckedCreateInput, 'version'>): Promise<void> {
      await tx.firstPiece.create({ data: row });
    },
    /** The run's view changes with its first piece. */
    async touchRun(runId: string): Promise<void> {
      await tx.run.update({ where: { id: runId }, data: { version: { increment: 1 } } });
    },
    async sign(
      at: { id: string; version: number },
      fields: { result: 'passed' | 'failed'; qaSignedBy: string; qaSignedAt: Date; qaNote: string },
    ): Promise<void> {
      await tx.firstPiece.update({ where: at, data: { ...fields, version: { increment: 1 } } });
    },
  };
}
