import { defects, dispositions, type Ncr } from '@tackboard/contract';
import { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

type Decision = Ncr['decisions'][number];
/** An NCR with people and procedures by id. */
export type NcrRecord = Omit<
  Ncr,
  'state' | 'undecided' | 'quarantined' | 'raisedAt' | 'closedAt' | 'decisions'
> & {
  readonly cellId: string | null;
  readonly raisedAt: Date;
  readonly closedAt: Date | null;
  readonly decisions: readonly (Omit<Decision, 'decidedAt' | 'inspectedAt' | 'wpsLabel'> & {
    readonly wpsId: string | null;
    readonly decidedAt: Date;
    readonly inspectedAt: Date | null;
  })[];
};

const ncrIncludes = {
  job: {
    select: {
      number: true,
      dueOn: true,
      order: { select: { customer: { select: { name: true } } } },
      revision: { select: { part: { select: { number: true, twoPersons: true } } } },
    },
  },
  jobStep: { select: { number: true, cellId: true, cell: { select: { code: true } } } },
  decisions: { orderBy: [{ decidedAt: 'asc' }, { id: 'asc' }] },
} as const satisfies Prisma.NonconformanceInclude;
type NcrRow = Prisma.NonconformanceGetPayload<{ include: typeof ncrIncludes }>;

const Disposition = z.enum(dispositions);

function toNcr({ job, jobStep, decisions, ...row }: NcrRow): NcrRecord {
  const { part } = job.revision;
  return {
    ...row,
    defect: z.enum(defects).parse(row.defect),
    jobNumber: job.number,
    dueOn: job.dueOn,
    customerName: job.order.customer.name,
    partNumber: part.number,
    twoPersons: part.twoPersons,
    stepNumber: jobStep?.number ?? null,
    cellId: jobStep?.cellId ?? null,
    cellCode: jobStep?.cell.code ?? null,
    decisions: decisions.map((one) => ({
      ...one,
      disposition: Disposition.parse(one.disposition),
    })),
  };
}

export function ncrReader(db: Db) {
  return { ...listReader(db), ...aroundReader(db) };
}

function listReader(db: Db) {
  return {
    async ncr(id: string): Promise<NcrRecord | null> {
      const row = await db.nonconformance.findUnique({ where: { id }, include: ncrIncludes });
      return row && toNcr(row);
    },
    async ncrs(filter: {
      closed?: boolean | undefined;
      jobId?: string | undefined;
      search?: string | undefined;
      take?: number | undefined;
      skip?: number | undefined;
    }): Promise<{ ncrs: NcrRecord[]; total: number }> {
      const { closed, jobId, search, take, skip } = filter;
      const number = Number(search);
      const where: Prisma.NonconformanceWhereInput = {
        ...(closed === undefined ? {} : { closedAt: closed ? { not: null } : null }),
        ...(jobId === undefined ? {} : { jobId }),
        ...(search === undefined || search === ''
          ? {}
          : {
              OR: [
                { job: { revision: { part: { number: { contains: search } } } } },
                { job: { order: { customer: { name: { contains: search } } } } },
                ...(Number.isInteger(number) ? [{ number }, { job: { number } }] : []),
              ],
            }),
      };
      const rows = await db.nonconformance.findMany({
        where,
        include: ncrIncludes,
        orderBy: { number: 'desc' },
        ...(take === undefined ? {} : { take }),
        ...(skip === undefined ? {} : { skip }),
      });
      return { ncrs: rows.map(toNcr), total: await db.nonconformance.count({ where }) };
    },
  };
}

/** What an NCR is about and refers to. */
function aroundReader(db: Db) {
  return {
    /** The step of a job at which an NCR is raised. */
    async stepOfJob(jobStepId: string) {
      const row = await db.jobStep.findUnique({
        where: { id: jobStepId },
        include: {
          job: {
            select: {
              number: true,
              quantity: true,
              state: true,
              revision: { select: { welds: { select: { number: true, stepNumber: true } } } },
            },
          },
          runs: { select: { id: true }, orderBy: { startedAt: 'desc' }, take: 1 },
        },
      });
      if (row === null) return null;
      const { job, runs, ...step } = row;
      return {
        ...step,
        jobNumber: job.number,
        batch: job.quantity,
        jobState: job.state,
        runId: runs[0]?.id ?? null,
        weldNumbers: job.revision.welds
          .filter(({ stepNumber }) => stepNumber === step.number)
          .map(({ number }) => number),
      };
    },
    async wps(id: string) {
      return db.wps.findUnique({
        where: { id },
        select: { number: true, revision: true, state: true },
      });
    },
    async wpsLabels(ids: readonly (string | null)[]): Promise<Map<string, string>> {
      const rows = await db.wps.findMany({
        where: { id: { in: ids.flatMap((id) => id ?? []) } },
        select: { id: true, number: true, revision: true },
      });
      return new Map(rows.map(({ id, number, revision }) => [id, `${number} r${revision}`]));
    },
  };
}

export function ncrWriter(tx: TransactionClient) {
  return {
    ...ncrReader(tx),
    async nextNumber(): Promise<number> {
      const { value } = await tx.counter.upsert({
        where: { name: 'ncr' },
        create: { name: 'ncr', value: 1 },
        update: { value: { increment: 1 } },
      });
      return value;
    },
    async add(row: Prisma.NonconformanceUncheckedCreateInput): Promise<void> {
      await tx.nonconformance.create({ data: row });
    },
    async addDecision(row: Prisma.NcrDecisionUncheckedCreateInput): Promise<void> {
      await tx.ncrDecision.create({ data: row });
    },
    async setInspection(
      id: string,
      fields: { accepted: number; inspectedBy: string; inspectedAt: Date; inspectNote: string },
    ): Promise<void> {
      await tx.ncrDecision.update({ where: { id }, data: fields });
    },
    async setNcr(
      at: { id: string; version: number },
      fields: { closedBy?: string; closedAt?: Date; closeNote?: string } = {},
    ): Promise<void> {
      await tx.nonconformance.update({
        where: at,
        data: { ...fields, version: { increment: 1 } },
      });
    },
    /** Moves parts of a step between good, scrap and quarantine. */
    async moveParts(
      jobStepId: string,
      by: { good: number; scrap: number; quarantined: number },
    ): Promise<void> {
      await tx.jobStep.update({
        where: { id: jobStepId },
        data: {
          goodCount: { increment: by.good },
          scrapCount: { increment: by.scrap },
          quarantinedCount: { increment: by.quarantined },
          version: { increment: 1 },
        },
      });
    },
  };
}
