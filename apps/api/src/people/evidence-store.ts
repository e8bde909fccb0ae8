import type { Db } from '../db/client.js';

export interface WorkedRun {
  readonly id: string;
  readonly personId: string;
  readonly cellId: string;
  readonly cellCode: string;
  readonly startedAt: Date;
  readonly goodCount: number;
  readonly jobNumber: number;
  readonly partNumber: string;
  /** The processes of the welds that the step lists. */
  readonly processes: readonly string[];
}

/** Runs with good parts, as the proof that a person has welded. */
export function evidenceReader(db: Db) {
  return {
    async runs(personIds: readonly string[], from: Date, until: Date): Promise<WorkedRun[]> {
      const rows = await db.run.findMany({
        where: {
          personId: { in: [...new Set(personIds)] },
          startedAt: { gte: from, lt: until },
          goodCount: { gt: 0 },
        },
        select: {
          ...{ id: true, personId: true, cellId: true, startedAt: true, goodCount: true },
          cell: { select: { code: true } },
          jobStep: {
            select: {
              step: { select: { number: true } },
              job: {
                select: {
                  ...{ number: true, revisionId: true },
                  revision: { select: { part: { select: { number: true } } } },
                },
              },
            },
          },
        },
        orderBy: { startedAt: 'desc' },
      });
      const processes = await processesOf(
        db,
        rows.map(({ jobStep }) => jobStep.job.revisionId),
      );
      return rows.map(({ cell, jobStep: { step, job }, ...run }) => ({
        ...run,
        cellCode: cell.code,
        jobNumber: job.number,
        partNumber: job.revision.part.number,
        processes: [...(processes.get(`${job.revisionId} ${step.number}`) ?? [])],
      }));
    },
    /** When the first run on file was started; null in a shop without any. */
    async firstRunAt(): Promise<Date | null> {
      const row = await db.run.findFirst({
        orderBy: { startedAt: 'asc' },
        select: { startedAt: true },
      });
      return row?.startedAt ?? null;
    },
  };
}

/** By revision and step number. */
async function processesOf(
  db: Db,
  revisionIds: readonly string[],
): Promise<ReadonlyMap<string, ReadonlySet<string>>> {
  const welds = await db.weld.findMany({
    where: { revisionId: { in: [...new Set(revisionIds)] } },
    select: { revisionId: true, stepNumber: true, process: true },
    distinct: ['revisionId', 'stepNumber', 'process'],
  });
  const found = new Map<string, Set<string>>();
  for (const { revisionId, stepNumber, process } of welds) {
    const key = `${revisionId} ${stepNumber}`;
    found.set(key, (found.get(key) ?? new Set()).add(process));
  }
  return found;
}
