import type { Cell } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import type { WeekCount, WeekRun, WeekStop } from './measure.js';

/** A run that ended lies at most so many days in one piece; one that is still held is found whatever its age. */
const longestRunDays = 35;
const msPerDay = 86_400_000;

interface Span {
  readonly start: Date;
  readonly end: Date;
}

export interface CellRecord {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly active: boolean;
  readonly calendar: Cell['calendar'];
}

type RunRow = Omit<WeekRun, 'stops' | 'counts'> & { readonly id: string; readonly cellId: string };

/** Runs that reach into a span; the index of cell and start does the work. */
function runsWithin({ start, end }: Span) {
  const earliest = new Date(start.getTime() - longestRunDays * msPerDay);
  return Prisma.sql`
    FROM "Cell" c JOIN "Run" ru ON ru."cellId" = c."id" AND ru."startedAt" < ${end}
      AND (ru."startedAt" >= ${earliest} OR ru."id" IN (SELECT "runId" FROM "Holding"))
      AND (ru."endedAt" IS NULL OR ru."endedAt" > ${start})`;
}

export function weekReader(db: Db) {
  return {
    async cells(span: { from: string; to: string }): Promise<CellRecord[]> {
      const rows = await db.cell.findMany({
        select: {
          ...{ id: true, code: true, name: true, active: true },
          shifts: {
            select: {
              weekday: true,
              startTime: true,
              endTime: true,
              breakMin: true,
              staffed: true,
            },
          },
          dayChanges: {
            where: { day: { gte: span.from, lte: span.to } },
            select: { day: true, kind: true, minutes: true, reason: true },
          },
        },
        orderBy: { code: 'asc' },
      });
      return rows.map(({ shifts, dayChanges, ...cell }) => ({
        ...cell,
        calendar: {
          shifts,
          dayChanges: dayChanges.map((change) => ({
            ...change,
            kind: change.kind as Cell['calendar']['dayChanges'][number]['kind'],
          })),
        },
      }));
    },
    /** The runs of a span by cell, with their stops; with each count where a run reaches beyond the span. */
    async runs(span: Span): Promise<Map<string, WeekRun[]>> {
      const rows = await db.$queryRaw<RunRow[]>`
        SELECT ru."id", ru."cellId", ru."startedAt", ru."endedAt", ru."goodCount", ru."reworkCount",
          ru."scrapCount", ru."setUpMin", ru."arcS", ru."arcSPerPart", ru."arcSource"
        ${runsWithin(span)}`;
      const stops = await db.$queryRaw<(WeekStop & { runId: string })[]>`
        SELECT st."runId", st."cause", st."startedAt", st."endedAt"
        ${runsWithin(span)} JOIN "Stop" st ON st."runId" = ru."id"`;
      const beyond = Prisma.sql`ru."startedAt" < ${span.start} OR ru."endedAt" IS NULL OR ru."endedAt" > ${span.end}`;
      const counts = await db.$queryRaw<(WeekCount & { runId: string })[]>`
        SELECT rc."runId", rc."happenedAt", rc."good", rc."rework", rc."scrap"
        ${runsWithin(span)} JOIN "RunCount" rc ON rc."runId" = ru."id" WHERE ${beyond}`;
      return byCell(rows, groupBy(stops), groupBy(counts), span);
    },
    /** Jobs finished since the span began, and open ones that were due before a day. */
    async jobs(at: { since: Date; dueBefore: string }) {
      return db.$queryRaw<{ finishedAt: Date | null; dueOn: string; createdAt: Date }[]>`
        SELECT "finishedAt", "dueOn", "createdAt" FROM "Job"
        WHERE ("finishedAt" >= ${at.since} AND "state" IN ('done', 'closedShort'))
          OR ("state" IN ('waiting', 'running') AND "dueOn" < ${at.dueBefore})`;
    },
    /** What was written when the orders of a span were taken. */
    async ordersTaken({ start, end }: Span): Promise<unknown[]> {
      const rows = await db.$queryRaw<{ after: unknown }[]>`
        SELECT e."after" FROM "Order" o
        JOIN "Event" e ON e."subjectType" = 'order' AND e."subjectId" = o."id" AND e."type" = 'order.taken'
        WHERE o."createdAt" >= ${start} AND o."createdAt" < ${end}`;
      return rows.map(({ after }) => after);
    },
  };
}

function groupBy<T extends { runId: string }>(rows: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.runId);
    if (group) group.push(row);
    else groups.set(row.runId, [row]);
  }
  return groups;
}

function byCell(
  rows: readonly RunRow[],
  stops: ReadonlyMap<string, WeekStop[]>,
  counts: ReadonlyMap<string, WeekCount[]>,
  { start, end }: Span,
): Map<string, WeekRun[]> {
  const cells = new Map<string, WeekRun[]>();
  for (const row of rows) {
    const beyond = row.startedAt < start || row.endedAt === null || row.endedAt > end;
    const run = {
      ...row,
      stops: stops.get(row.id) ?? [],
      counts: beyond ? (counts.get(row.id) ?? []) : null,
    };
    const cell = cells.get(row.cellId);
    if (cell) cell.push(run);
    else cells.set(row.cellId, [run]);
  }
  return cells;
}
