import type { Db } from '../db/client.js';

/** Enough to see how a part is made; older jobs are found by the orders. */
const jobsShown = 10;

export interface DoneJob {
  readonly number: number;
  readonly finishedAt: Date;
  readonly revision: string;
  readonly quantity: number;
  readonly customerName: string;
  /** By step number; the last one is where the part was finished. */
  readonly steps: readonly {
    readonly cellCode: string;
    readonly scrapCount: number;
    readonly runs: readonly { readonly startedAt: Date; readonly endedAt: Date | null }[];
  }[];
}

export function historyReader(db: Db) {
  return {
    /** The latest first. */
    async doneJobs(partId: string): Promise<DoneJob[]> {
      const rows = await db.job.findMany({
        where: { revision: { partId }, state: 'done', finishedAt: { not: null } },
        orderBy: [{ finishedAt: 'desc' }, { number: 'desc' }],
        take: jobsShown,
        select: {
          number: true,
          finishedAt: true,
          quantity: true,
          revision: { select: { label: true } },
          order: { select: { customer: { select: { name: true } } } },
          steps: {
            orderBy: { number: 'asc' },
            select: {
              scrapCount: true,
              cell: { select: { code: true } },
              runs: { select: { startedAt: true, endedAt: true } },
            },
          },
        },
      });
      return rows.flatMap(({ finishedAt, revision, order, steps, ...job }) =>
        finishedAt === null
          ? []
          : {
              ...job,
              finishedAt,
              revision: revision.label,
              customerName: order.customer.name,
              steps: steps.map(({ cell, ...step }) => ({ ...step, cellCode: cell.code })),
            },
      );
    },
    /** Quantities of all jobs that were made. */
    async pastQuantities(partId: string): Promise<number[]> {
      const rows = await db.job.findMany({
        where: { revision: { partId }, state: { in: ['done', 'closedShort'] } },
        select: { quantity: true },
      });
      return rows.map(({ quantity }) => quantity);
    },
  };
}
