import type { Cell } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import { groupBy } from '../group-by.js';
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
  readonly calendar: {
    readonly shifts: readonly Shift[];
    readonly dayChanges: readonly DayChange[];
  };
}

interface RunRow extends WeekRun {
  readonly id: string;
  readonly cellId: string;
  // Both are read after the row and put into it: a week has hundreds of runs.
  stops: WeekRun['stops'];
  counts: WeekRun['counts'];
}
type OfRun<Row> = Row & { readonly runId: string };
type OfCell<Row> = Row & { readonly cellId: string };
type Shift = Cell['calendar']['shifts'][number];
type DayChange = Cell['calendar']['dayChanges'][number];
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
      const cells = await db.$queryRaw<Omit<CellRecord, 'calendar'>[]>`
        SELECT "id", "code", "name", "active" FROM "Cell" ORDER BY "code"`;
      const shifts = groupBy(
        await db.$queryRaw<OfCell<Shift>[]>`
          SELECT "cellId", "weekday", "startTime", "endTime", "breakMin", "staffed" FROM "Shift"`,
        ({ cellId }) => cellId,
      );
      const dayChanges = groupBy(
        await db.$queryRaw<OfCell<DayChange>[]>`
          SELECT "cellId", "day", "kind", "minutes", "reason" FROM "DayChange"
          WHERE "day" >= ${span.from} AND "day" <= ${span.to}`,
        ({ cellId }) => cellId,
      );
      return cells.map((cell) => ({
        ...cell,
        calendar: {
          shifts: shifts.get(cell.id) ?? none,
          dayChanges: dayChanges.get(cell.id) ?? none,
        },
      }));
    },
    /** The runs of a span by cell, with their stops; with each count where a run reaches beyond the span. */
    async runs({ start, end }: Span): Promise<ReadonlyMap<string, readonly WeekRun[]>> {
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
      const stops = groupBy(await stopsOf(db, rows), ({ runId }) => runId);
      const counts = groupBy(await countsOf(db, beyond), ({ runId }) => runId);
      for (const row of rows) {
        row.stops = stops.get(row.id) ?? none;
        row.counts = null;
      }
      for (const row of beyond) row.counts = counts.get(row.id) ?? none;
      return groupBy(rows, ({ cellId }) => cellId);
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
