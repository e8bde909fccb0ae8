import type { Db } from '../db/client.js';

export interface DueJob {
  readonly partNumber: string;
  readonly quantity: number;
  readonly steps: readonly {
    readonly cellId: string;
    readonly plannedMin: number;
    readonly setUpMin: number;
    readonly firstPieceMin: number;
  }[];
}

export function capacityReader(db: Db) {
  return {
    /** Every job due from one day to another, also what is done by now: it was asked for all the same. */
    async dueJobs({ from, to }: { from: string; to: string }): Promise<DueJob[]> {
      const rows = await db.job.findMany({
        where: { dueOn: { gte: from, lte: to }, state: { not: 'cancelled' } },
        select: {
          quantity: true,
          revision: { select: { part: { select: { number: true } } } },
          steps: {
            where: { state: { not: 'cancelled' } },
            select: {
              ...{ cellId: true, plannedMin: true },
              step: { select: { setUpMin: true, firstPieceMin: true } },
            },
          },
        },
      });
      return rows.map(({ quantity, revision, steps }) => ({
        ...{ quantity, partNumber: revision.part.number },
        steps: steps.map(({ step, ...row }) => ({ ...row, ...step })),
      }));
    },
  };
}
