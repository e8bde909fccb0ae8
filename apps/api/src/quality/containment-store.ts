import type { ContainedWork, JobHold } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { CountToTrace, LoadToTrace, RunToTrace } from './shared-work.js';

export interface SharedThing {
  readonly lotId?: string | undefined;
  readonly personId?: string | undefined;
  readonly programId?: string | undefined;
  readonly wpsId?: string | undefined;
  readonly cellId?: string | undefined;
}

type Described = Pick<
  ContainedWork,
  | 'jobId'
  | 'jobNumber'
  | 'jobState'
  | 'partNumber'
  | 'revision'
  | 'customerName'
  | 'customerOrder'
  | 'stepNumber'
  | 'quantity'
  | 'held'
> & { readonly jobStepId: string };

/** A hold with people by id. */
export type HoldRecord = Omit<JobHold, 'placedAt' | 'liftedAt'> & {
  readonly placedAt: Date;
  readonly liftedAt: Date | null;
};

const jobOfHold = {
  select: {
    number: true,
    revision: { select: { part: { select: { number: true } } } },
    order: { select: { customer: { select: { name: true } } } },
  },
} as const satisfies Prisma.JobDefaultArgs;
type HoldRow = Prisma.JobHoldGetPayload<{ include: { job: typeof jobOfHold } }>;

function toHold({ job, ...row }: HoldRow): HoldRecord {
  return {
    ...row,
    jobNumber: job.number,
    partNumber: job.revision.part.number,
    customerName: job.order.customer.name,
  };
}

const runOfTrace = {
  select: {
    id: true,
    jobStepId: true,
    cellId: true,
    personId: true,
    wpsId: true,
    startedAt: true,
    endedAt: true,
    person: { select: { code: true } },
    setUp: { select: { programId: true } },
  },
} as const;

export function containmentReader(db: Db) {
  return { ...traceReader(db), ...describingReader(db), ...holdReader(db) };
}

function traceReader(db: Db) {
  return {
    /** Every run of each step in which one run shares the thing and falls into the span. */
    async runs(
      by: SharedThing,
      span: { from: Date; to: Date },
      loads: readonly LoadToTrace[] | null,
    ): Promise<RunToTrace[]> {
      const { personId, programId, wpsId, cellId } = by;
      const cellIds = loads?.map((load) => load.cellId);
      const same: Prisma.RunWhereInput = {
        ...(personId === undefined ? {} : { personId }),
        ...(wpsId === undefined ? {} : { wpsId }),
        ...(cellId === undefined ? {} : { cellId }),
        ...(programId === undefined ? {} : { setUp: { programId } }),
        ...(cellIds === undefined ? {} : { cell: { id: { in: cellIds } } }),
        startedAt: { lt: span.to },
        OR: [{ endedAt: null }, { endedAt: { gte: span.from } }],
      };
      const rows = await db.run.findMany({
        where: { jobStep: { runs: { some: same } } },
        ...runOfTrace,
        orderBy: [{ startedAt: 'asc' }, { id: 'asc' }],
      });
      return rows.map(({ person, setUp, ...run }) => ({
        ...run,
        personCode: person.code,
        shares:
          (personId === undefined || run.personId === personId) &&
          (wpsId === undefined || run.wpsId === wpsId) &&
          (cellId === undefined || run.cellId === cellId) &&
          (programId === undefined || setUp?.programId === programId),
      }));
    },
    async counts(jobStepIds: readonly string[]): Promise<CountToTrace[]> {
      const rows = await db.runCount.findMany({
        where: { run: { jobStepId: { in: [...jobStepIds] } } },
        orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
      });
      return rows.map(({ runId, happenedAt, good, rework, scrap }) => ({
        ...{ runId, happenedAt, parts: good + rework + scrap },
      }));
    },
    async loads(lotId: string): Promise<LoadToTrace[]> {
      return db.lotLoad.findMany({
        where: { lotId },
        select: { cellId: true, loadedAt: true, unloadedAt: true },
      });
    },
  };
}

function describingReader(db: Db) {
  return {
    async described(jobStepIds: readonly string[]): Promise<Described[]> {
      const rows = await db.jobStep.findMany({
        where: { id: { in: [...jobStepIds] } },
        select: {
          id: true,
          number: true,
          job: {
            select: {
              id: true,
              number: true,
              state: true,
              quantity: true,
              holds: { where: { liftedAt: null }, select: { id: true } },
              order: { select: { customerNumber: true, customer: { select: { name: true } } } },
              revision: { select: { label: true, part: { select: { number: true } } } },
            },
          },
        },
      });
      return rows.map(({ id, number, job }) => ({
        jobStepId: id,
        stepNumber: number,
        ...{ jobId: job.id, jobNumber: job.number, jobState: job.state, quantity: job.quantity },
        ...{ partNumber: job.revision.part.number, revision: job.revision.label },
        ...{ customerName: job.order.customer.name, customerOrder: job.order.customerNumber },
        held: job.holds.length > 0,
      }));
    },
    async cellCodes(ids: readonly string[]): Promise<Map<string, string>> {
      const rows = await db.cell.findMany({
        where: { id: { in: [...new Set(ids)] } },
        select: { id: true, code: true },
      });
      return new Map(rows.map(({ id, code }) => [id, code]));
    },
  };
}

function holdReader(db: Db) {
  return {
    async holds(filter: { jobId?: string | undefined }): Promise<HoldRecord[]> {
      const { jobId } = filter;
      const rows = await db.jobHold.findMany({
        where: jobId === undefined ? { liftedAt: null } : { jobId },
        include: { job: jobOfHold },
        orderBy: [{ placedAt: 'desc' }, { id: 'desc' }],
      });
      return rows.map(toHold);
    },
    async hold(id: string): Promise<HoldRecord | null> {
      const row = await db.jobHold.findUnique({ where: { id }, include: { job: jobOfHold } });
      return row && toHold(row);
    },
  };
}

export function containmentWriter(tx: TransactionClient) {
  return {
    ...containmentReader(tx),
    async place(row: {
      id: string;
      jobId: string;
      reason: string;
      placedBy: string;
      placedAt: Date;
    }): Promise<void> {
      await tx.jobHold.create({ data: row });
    },
    async lift(
      at: { id: string; version: number },
      fields: { liftedBy: string; liftedAt: Date; liftReason: string },
    ): Promise<void> {
      await tx.jobHold.update({ where: at, data: { ...fields, version: { increment: 1 } } });
    },
  };
}
