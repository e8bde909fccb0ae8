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
type OfRun<Row> = Row & { readonly runId: string };
interface JobRow {
  readonly finishedAt: Date | null;
  readonly dueOn: string;
  readonly createdAt: Date;
  readonly state: string;
}

const none: readonly never[] = [];

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
    async runs({ start, end }: Span): Promise<Map<string, WeekRun[]>> {
      const earliest = new Date(start.getTime() - longestRunDays * msPerDay);
      const columns = Prisma.sql`
        ru."id", ru."cellId", ru."startedAt", ru."endedAt", ru."goodCount", ru."reworkCount",
        ru."scrapCount", ru."setUpMin", ru."arcS", ru."arcSPerPart", ru."arcSource"`;
      const within = Prisma.sql`ru."startedAt" < ${end} AND (ru."endedAt" IS NULL OR ru."endedAt" > ${start})`;
      // Each half by its own index: the time since the shop began must not count.
      const rows = await db.$queryRaw<RunRow[]>`
        SELECT ${columns} FROM "Run" ru
        WHERE ru."cellId" IN (SELECT "id" FROM "Cell") AND ru."startedAt" >= ${earliest} AND ${within}
        UNION
        SELECT ${columns} FROM "Run" ru
        WHERE ru."id" IN (SELECT "runId" FROM "Holding") AND ${within}`;
      const beyond = rows.filter((row) => reachesBeyond(row, { start, end }));
      return byCell(rows, {
        stops: groupBy(await stopsOf(db, rows)),
        counts: groupBy(await countsOf(db, beyond)),
        beyond: new Set(beyond),
      });
    },
    /** Jobs finished since the span began, and open ones that were due before a day. */
    async jobs(at: { since: Date; dueBefore: string }) {
      const rows = await db.$queryRaw<JobRow[]>`
        SELECT "finishedAt", "dueOn", "createdAt", "state" FROM "Job"
        WHERE "finishedAt" >= ${at.since}
          OR ("state" IN ('waiting', 'running') AND "dueOn" < ${at.dueBefore})`;
      return rows.filter(({ state }) => state !== 'cancelled');
    },
    /** What was written when the orders of a span were taken. */
    async ordersTaken({ start, end }: Span): Promise<unknown[]> {
      const rows = await db.$queryRaw<{ after: unknown }[]>`
        SELECT "after" FROM "Event"
        WHERE "subjectType" = 'order' AND "type" = 'order.taken' AND "subjectId" IN
          (SELECT "id" FROM "Order" WHERE "createdAt" >= ${start} AND "createdAt" < ${end})`;
      return rows.map(({ after }) => after);
    },
  };
}

async function stopsOf(db: Db, runs: readonly RunRow[]): Promise<readonly OfRun<WeekStop>[]> {
  if (runs.length === 0) return none;
  return db.$queryRaw<OfRun<WeekStop>[]>`
    SELECT "runId", "cause", "startedAt", "endedAt" FROM "Stop" WHERE "runId" IN (${idsOf(runs)})`;
}

async function countsOf(db: Db, runs: readonly RunRow[]): Promise<readonly OfRun<WeekCount>[]> {
  if (runs.length === 0) return none;
  return db.$queryRaw<OfRun<WeekCount>[]>`
    SELECT "runId", "happenedAt", "good", "rework", "scrap" FROM "RunCount"
    WHERE "runId" IN (${idsOf(runs)})`;
}

function idsOf(runs: readonly RunRow[]) {
  return Prisma.join(runs.map(({ id }) => id));
}

function reachesBeyond({ startedAt, endedAt }: RunRow, { start, end }: Span): boolean {
  return startedAt < start || endedAt === null || endedAt > end;
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
  of: {
    readonly stops: ReadonlyMap<string, WeekStop[]>;
    readonly counts: ReadonlyMap<string, WeekCount[]>;
    readonly beyond: ReadonlySet<RunRow>;
  },
): Map<string, WeekRun[]> {
  const cells = new Map<string, WeekRun[]>();
  for (const row of rows) {
    const run = {
      ...row,
      stops: of.stops.get(row.id) ?? [],
      counts: of.beyond.has(row) ? (of.counts.get(row.id) ?? []) : null,
    };
    const cell = cells.get(row.cellId);
    if (cell) cell.push(run);
    else cells.set(row.cellId, [run]);
  }
  return cells;
}
