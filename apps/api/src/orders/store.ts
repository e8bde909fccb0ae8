import type { Job } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

const jobIncludes = {
  order: { include: { customer: { select: { name: true } } } },
  nonconformances: {
    where: { closedAt: null },
    select: { number: true },
    orderBy: { number: 'asc' },
  },
  holds: { where: { liftedAt: null }, select: { reason: true }, orderBy: { placedAt: 'asc' } },
  revision: {
    select: {
      label: true,
      part: {
        select: { id: true, number: true, name: true, outsideWork: true, outsideDays: true },
      },
    },
  },
  outsideTrips: { select: { work: true, dueBackOn: true, backOn: true } },
  steps: {
    orderBy: { number: 'asc' },
    include: {
      step: { select: { name: true } },
      cell: { select: { code: true } },
      holding: { select: { person: { select: { name: true } } } },
      points: { where: { result: null, kind: 'hold' }, select: { id: true } },
    },
  },
} as const satisfies Prisma.JobInclude;
type JobRow = Prisma.JobGetPayload<{ include: typeof jobIncludes }>;

/** A job as it stands in the database; whether it is late depends on the day and is the service's to say. */
export type JobRecord = Omit<Job, 'late' | 'createdAt' | 'finishedAt' | 'steps'> & {
  readonly createdAt: Date;
  readonly finishedAt: Date | null;
  readonly steps: readonly (Job['steps'][number] & { readonly stepId: string })[];
};

export interface OrderRecord {
  readonly id: string;
  readonly version: number;
  readonly number: number;
  readonly customerId: string;
  readonly customerName: string;
  readonly customerOrder: string;
  readonly createdAt: Date;
  readonly createdBy: string;
  readonly jobs: readonly JobRecord[];
}

function toJob(row: JobRow): JobRecord {
  const { order, revision, steps, nonconformances, holds, outsideTrips, ...job } = row;
  return {
    ...job,
    openNcrs: nonconformances.map(({ number }) => number),
    openHolds: [
      ...holds.map(({ reason }) => reason),
      ...steps.flatMap(({ number, points }) =>
        points.map(() => `The hold point after step ${number} waits for QA`),
      ),
    ],
    outside: outsideOf(revision.part, outsideTrips),
    orderNumber: order.number,
    customerName: order.customer.name,
    customerOrder: order.customerNumber,
    partId: revision.part.id,
    partNumber: revision.part.number,
    partName: revision.part.name,
    revision: revision.label,
    steps: steps.map(({ step, cell, holding, points: _points, ...rest }) => ({
      ...rest,
      name: step.name,
      cellCode: cell.code,
      holder: holding?.person.name ?? null,
    })),
  };
}

/** What is asked for is open until something of it is back; whatever is out is open too. */
function outsideOf(
  { outsideWork, outsideDays }: JobRow['revision']['part'],
  trips: JobRow['outsideTrips'],
): Job['outside'] {
  const out = trips.filter(({ backOn }) => backOn === null);
  const work = out[0]?.work ?? outsideWork;
  if (work === '' && trips.length === 0) return null;
  const waits = outsideWork !== '' && trips.length === 0;
  const dueBackOn =
    out
      .map((trip) => trip.dueBackOn)
      .toSorted()
      .at(-1) ?? null;
  return { work, days: outsideDays, dueBackOn, open: waits || out.length > 0 };
}

const orderIncludes = {
  customer: { select: { name: true } },
  jobs: { include: jobIncludes, orderBy: { lineNumber: 'asc' } },
} as const satisfies Prisma.OrderInclude;
type OrderRow = Prisma.OrderGetPayload<{ include: typeof orderIncludes }>;

function toOrder(row: OrderRow): OrderRecord {
  const { customer, customerNumber, jobs, ...order } = row;
  return {
    ...order,
    customerName: customer.name,
    customerOrder: customerNumber,
    jobs: jobs.map(toJob),
  };
}

export interface OrderFilter {
  readonly search?: string | undefined;
  readonly customerId?: string | undefined;
  readonly limit: number;
  readonly offset: number;
}

function whereOf({ search, customerId }: OrderFilter): Prisma.OrderWhereInput {
  const number = Number(search);
  return {
    ...(customerId === undefined ? {} : { customerId }),
    ...(search === undefined || search === ''
      ? {}
      : {
          OR: [
            { customerNumber: { contains: search } },
            { customer: { name: { contains: search } } },
            { jobs: { some: { revision: { part: { number: { contains: search } } } } } },
            ...(Number.isInteger(number) ? [{ number }, { jobs: { some: { number } } }] : []),
          ],
        }),
  };
}

export function ordersReader(db: Db) {
  return {
    async orders(filter: OrderFilter): Promise<{ orders: OrderRecord[]; total: number }> {
      const where = whereOf(filter);
      const total = await db.order.count({ where });
      const rows = await db.order.findMany({
        where,
        include: orderIncludes,
        orderBy: { number: 'desc' },
        take: filter.limit,
        skip: filter.offset,
      });
      return { orders: rows.map(toOrder), total };
    },
    async order(id: string): Promise<OrderRecord | null> {
      const row = await db.order.findUnique({ where: { id }, include: orderIncludes });
      return row && toOrder(row);
    },
    async job(id: string): Promise<JobRecord | null> {
      const row = await db.job.findUnique({ where: { id }, include: jobIncludes });
      return row && toJob(row);
    },
    async jobs(ids: readonly string[]): Promise<JobRecord[]> {
      const rows = await db.job.findMany({
        where: { id: { in: [...ids] } },
        include: jobIncludes,
      });
      return rows.map(toJob);
    },
    async jobOfStep(jobStepId: string): Promise<JobRecord | null> {
      const row = await db.job.findFirst({
        where: { steps: { some: { id: jobStepId } } },
        include: jobIncludes,
      });
      return row && toJob(row);
    },
    async customer(id: string) {
      return db.customer.findUnique({ where: { id }, select: { name: true, active: true } });
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

export interface NewJob {
  readonly id: string;
  readonly number: number;
  readonly orderId: string;
  readonly lineNumber: number;
  readonly revisionId: string;
  readonly orderedRevision: string;
  readonly quantity: number;
  readonly dueOn: string;
  readonly released: boolean;
  readonly holdReason: string | null;
  readonly pastDueReason: string | null;
  readonly createdAt: Date;
}

/** How the steps of a job end without having been made whole. */
function endingSteps(tx: TransactionClient) {
  return {
    /** Steps with parts that nobody has put down as done, and what is to be inspected after them. */
    async stepsToEnd(jobId: string) {
      const rows = await tx.jobStep.findMany({
        where: { jobId, state: { in: ['blocked', 'waiting'] }, goodCount: { gt: 0 } },
        select: {
          ...{ id: true, cellId: true },
          step: { select: { holdPoint: true, witnessMin: true } },
        },
      });
      return rows.map(({ id, cellId, step }) => ({ jobStepId: id, cellId, ...step }));
    },
    /** A step with parts is done with those; one without is cancelled. */
    async endSteps(jobId: string, doneAt: Date): Promise<void> {
      const open = {
        jobId,
        state: { in: ['blocked', 'waiting'] },
      } satisfies Prisma.JobStepWhereInput;
      const version = { increment: 1 };
      await tx.jobStep.updateMany({
        where: { ...open, goodCount: { gt: 0 } },
        data: { state: 'done', doneAt, version },
      });
      await tx.jobStep.updateMany({ where: open, data: { state: 'cancelled', version } });
    },
    async cancelSteps(jobId: string): Promise<void> {
      await tx.jobStep.updateMany({
        where: { jobId, state: { in: ['blocked', 'waiting'] } },
        data: { state: 'cancelled', version: { increment: 1 } },
      });
    },
    /** Steps that nobody has worked on leave the run queue, so that those of another revision take their place; answers how many. */
    async removeUnstartedSteps(jobId: string): Promise<number> {
      const { count } = await tx.jobStep.deleteMany({
        where: { jobId, state: { in: ['blocked', 'waiting'] }, runs: { none: {} } },
      });
      return count;
    },
  };
}

export function ordersWriter(tx: TransactionClient) {
  return {
    ...ordersReader(tx),
    ...endingSteps(tx),
    /** The first of `count` new running numbers. */
    async nextNumbers(name: 'order' | 'job', count: number): Promise<number> {
      const { value } = await tx.counter.upsert({
        where: { name },
        create: { name, value: count },
        update: { value: { increment: count } },
      });
      return value - count + 1;
    },
    async addOrder(order: {
      id: string;
      number: number;
      customerId: string;
      customerNumber: string;
      createdAt: Date;
      createdBy: string;
    }): Promise<void> {
      await tx.order.create({ data: order });
    },
    async addJobs(jobs: readonly NewJob[]): Promise<void> {
      await tx.job.createMany({ data: [...jobs] });
    },
    /** The version in the question keeps a row that has moved on from being overwritten. */
    async setJob(
      at: { id: string; version: number },
      fields: Partial<
        Pick<NewJob, 'quantity' | 'dueOn' | 'revisionId' | 'released' | 'holdReason'>
      > & { state?: Job['state']; finishedAt?: Date },
    ): Promise<void> {
      await tx.job.update({ where: at, data: { ...fields, version: { increment: 1 } } });
    },
    async nextLine(orderId: string): Promise<number> {
      return (await tx.job.count({ where: { orderId } })) + 1;
    },
    async setPlannedMin(jobStepId: string, plannedMin: number): Promise<void> {
      await tx.jobStep.update({
        where: { id: jobStepId },
        data: { plannedMin, version: { increment: 1 } },
      });
    },
    async setKit(jobStepId: string, kitComplete: boolean): Promise<void> {
      await tx.jobStep.update({
        where: { id: jobStepId },
        data: { kitComplete, version: { increment: 1 } },
      });
    },
  };
}
