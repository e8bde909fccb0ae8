import type { Db } from '../db/client.js';

/** Enough for a share; older jobs say little about how the shop keeps its dates today. */
const jobsCounted = 50;

export interface EndedJob {
  readonly dueOn: string;
  readonly finishedAt: Date;
  /** When its last run ended; null where nobody worked on it. */
  readonly workedUntil: Date | null;
}

/** The jobs of one part, as far as its coming back is read from them. */
export interface PartReturns {
  readonly finishedAt: readonly Date[];
  readonly createdAt: readonly Date[];
}

const columns = {
  dueOn: true,
  finishedAt: true,
  steps: { select: { runs: { select: { endedAt: true } } } },
} as const;

/** Past jobs that a promise is measured by, and that say whether parts come back. */
export function promiseReader(db: Db) {
  async function ended(of: { partId: string } | { cellId: string }): Promise<EndedJob[]> {
    const rows = await db.job.findMany({
      where: {
        state: { in: ['done', 'closedShort'] },
        finishedAt: { not: null },
        ...('partId' in of
          ? { revision: { partId: of.partId } }
          : { steps: { some: { cellId: of.cellId } } }),
      },
      select: columns,
      orderBy: { finishedAt: 'desc' },
      take: jobsCounted,
    });
    return rows.flatMap(({ dueOn, finishedAt, steps }) => {
      const ends = steps.flatMap(({ runs }) => runs.flatMap((run) => run.endedAt?.getTime() ?? []));
      const workedUntil = ends.length === 0 ? null : new Date(Math.max(...ends));
      return finishedAt === null ? [] : [{ dueOn, finishedAt, workedUntil }];
    });
  }
  return {
    ended,
    /** Of every part that bears the same expectation of coming back. */
    async returns(returnChance: string): Promise<PartReturns[]> {
      const rows = await db.part.findMany({
        where: { returnChance },
        select: {
          revisions: {
            select: {
              jobs: {
                where: { state: { not: 'cancelled' } },
                select: { createdAt: true, finishedAt: true },
              },
            },
          },
        },
      });
      return rows.map(({ revisions }) => {
        const jobs = revisions.flatMap((revision) => revision.jobs);
        return {
          finishedAt: jobs.flatMap(({ finishedAt }) => finishedAt ?? []),
          createdAt: jobs.map(({ createdAt }) => createdAt),
        };
      });
    },
  };
}
