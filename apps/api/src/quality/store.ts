import type { jobStepStates } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

const withJob = { job: { select: { number: true } } } as const;
type Row = Prisma.OverrideGetPayload<{ include: typeof withJob }>;

/** People by id. */
export interface OverrideRecord {
  readonly id: string;
  readonly jobId: string;
  readonly jobNumber: number;
  readonly jobStepId: string | null;
  readonly rule: string;
  readonly reason: string;
  readonly signedById: string;
  readonly forPersonId: string | null;
  readonly signedAt: Date;
  readonly expiresAt: Date;
}

export interface StepToPass {
  readonly id: string;
  readonly number: number;
  readonly state: (typeof jobStepStates)[number];
  readonly cellId: string;
  readonly jobId: string;
  readonly jobNumber: number;
}

function toOverride({ job, personId, forPerson, ...row }: Row): OverrideRecord {
  return { ...row, jobNumber: job.number, signedById: personId, forPersonId: forPerson };
}

export function qualityReader(db: Db) {
  return {
    async overrides(jobId: string | undefined): Promise<OverrideRecord[]> {
      const rows = await db.override.findMany({
        where: jobId === undefined ? {} : { jobId },
        include: withJob,
        orderBy: [{ signedAt: 'desc' }, { id: 'desc' }],
      });
      return rows.map(toOverride);
    },
    async step(jobStepId: string): Promise<StepToPass | null> {
      const row = await db.jobStep.findUnique({
        where: { id: jobStepId },
        select: {
          id: true,
          number: true,
          state: true,
          cellId: true,
          jobId: true,
          job: { select: { number: true } },
        },
      });
      if (row === null) return null;
      const { job, ...step } = row;
      return { ...step, jobNumber: job.number };
    },
    async person(id: string) {
      return db.person.findUnique({
        where: { id },
        select: { id: true, code: true, name: true, active: true },
      });
    },
    async names(ids: readonly string[]): Promise<Map<string, string>> {
      const rows = await db.person.findMany({
        where: { id: { in: [...new Set(ids)] } },
        select: { id: true, name: true },
      });
      return new Map(rows.map(({ id, name }) => [id, name]));
    },
  };
}

export function qualityWriter(tx: TransactionClient) {
  return {
    ...qualityReader(tx),
    async addOverride(row: Omit<OverrideRecord, 'jobNumber'>): Promise<void> {
      const { signedById, forPersonId, ...fields } = row;
      await tx.override.create({
        data: { ...fields, personId: signedById, forPerson: forPersonId },
      });
    },
  };
}
