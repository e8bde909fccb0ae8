import type { Assignment, OpenOfJob } from '@tackboard/contract';
import { Assignment as Shape } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

const includes = {
  person: { select: { code: true, name: true } },
  job: {
    select: {
      number: true,
      order: { select: { customer: { select: { name: true } } } },
      revision: { select: { part: { select: { number: true } } } },
    },
  },
} as const satisfies Prisma.AssignmentInclude;
type Row = Prisma.AssignmentGetPayload<{ include: typeof includes }>;

/** An assignment as it stands; whether it is overdue depends on the day. */
export type AssignmentRecord = Omit<Assignment, 'overdue' | 'openedAt' | 'closedAt'> & {
  readonly openedAt: Date;
  readonly closedAt: Date | null;
};

function toRecord({ person, job, topic, closedAs, ...row }: Row): AssignmentRecord {
  return {
    ...row,
    topic: Shape.shape.topic.parse(topic),
    closedAs: Shape.shape.closedAs.parse(closedAs),
    ...{ jobNumber: job.number, partNumber: job.revision.part.number },
    customerName: job.order.customer.name,
    ...{ personCode: person.code, personName: person.name },
  };
}

export type NewAssignment = Pick<
  AssignmentRecord,
  'id' | 'jobId' | 'stepNumber' | 'topic' | 'text' | 'personId' | 'dueOn' | 'openedAt'
>;

export function assignmentsReader(db: Db) {
  const open = { closedAt: null };
  return {
    /** Open ones, the first due first; of one job those that are closed too. */
    async list(filter: {
      jobId?: string | undefined;
      personId?: string | undefined;
    }): Promise<AssignmentRecord[]> {
      const { jobId, personId } = filter;
      const rows = await db.assignment.findMany({
        where: {
          ...(jobId === undefined ? open : { jobId }),
          ...(personId === undefined ? {} : { personId }),
        },
        include: includes,
        orderBy: [{ closedAt: 'asc' }, { dueOn: 'asc' }, { openedAt: 'asc' }, { id: 'asc' }],
        take: 500,
      });
      return rows.map(toRecord);
    },
    async byId(id: string): Promise<AssignmentRecord | null> {
      const row = await db.assignment.findUnique({ where: { id }, include: includes });
      return row && toRecord(row);
    },
    async names(ids: readonly (string | null)[]): Promise<Map<string, string>> {
      const rows = await db.person.findMany({
        where: { id: { in: ids.flatMap((id) => id ?? []) } },
        select: { id: true, name: true },
      });
      return new Map(rows.map(({ id, name }) => [id, name]));
    },
    /** How many each person has open. */
    async openByPerson(): Promise<Map<string, number>> {
      const rows = await db.assignment.groupBy({ by: ['personId'], where: open, _count: true });
      return new Map(rows.map(({ personId, _count }) => [personId, _count]));
    },
    /** For every job that is still made, with open ones: how many, until when, and how many are past `today`. */
    async openByJob(today: string): Promise<OpenOfJob[]> {
      const rows = await db.assignment.findMany({
        where: { ...open, job: { state: { in: ['waiting', 'running'] } } },
        select: { jobId: true, dueOn: true },
        orderBy: { dueOn: 'asc' },
      });
      const jobs = new Map<string, OpenOfJob>();
      for (const { jobId, dueOn } of rows) {
        const known = jobs.get(jobId) ?? { jobId, open: 0, until: dueOn, overdue: 0 };
        jobs.set(jobId, {
          ...{ jobId, open: known.open + 1, until: dueOn },
          overdue: known.overdue + (dueOn < today ? 1 : 0),
        });
      }
      return [...jobs.values()];
    },
    async anyOpen(): Promise<boolean> {
      return (await db.assignment.findFirst({ where: open, select: { id: true } })) !== null;
    },
  };
}

export function assignmentsWriter(tx: TransactionClient) {
  return {
    ...assignmentsReader(tx),
    async add(rows: readonly NewAssignment[]): Promise<void> {
      await tx.assignment.createMany({ data: [...rows] });
    },
    async set(
      at: { id: string; version: number },
      fields: Prisma.AssignmentUncheckedUpdateManyInput,
    ): Promise<void> {
      await tx.assignment.update({ where: at, data: { ...fields, version: { increment: 1 } } });
    },
  };
}
