import { StartDifference, type Run } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';

type Columns = Omit<
  Run,
  'startedAt' | 'endedAt' | 'stops' | 'readings' | 'startAsked' | 'start'
> & {
  readonly startedAt: Date;
  readonly endedAt: Date | null;
};

/** A run with what the rules ask beyond its view. */
export interface RunRecord {
  readonly view: Run;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
  readonly jobId: string;
  readonly stepId: string;
  readonly stepNumber: number;
  readonly revisionId: string;
  readonly coded: boolean;
  readonly wpsId: string | null;
  readonly setUpId: string | null;
  readonly arcSPerPart: number;
  readonly holdPoint: boolean;
  readonly witnessMin: number | null;
  /** Good parts counted at this cell with this set-up and procedure, in this run and in others of the step. */
  readonly goodLikeThis: number;
  /** The run in which the step is held now, and by whom; null while nobody holds it. */
  readonly holder: {
    readonly runId: string;
    readonly personId: string;
    readonly code: string;
  } | null;
}

type Row = Columns &
  Omit<RunRecord, 'view' | 'holder' | 'goodLikeThis'> & {
    readonly goodLikeThis: number | bigint;
    readonly startAsked: boolean | number | bigint;
    readonly startSaidAt: Date | null;
    readonly startSaidBy: string | null;
    readonly startDifferences: unknown;
    readonly holdingRunId: string | null;
    readonly holdingPersonId: string | null;
    readonly holdingCode: string | null;
  };
type StopRow = Omit<Run['stops'][number], 'startedAt' | 'endedAt'> & {
  readonly runId: string;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
};
type ReadingRow = Omit<Run['readings'][number], 'at' | 'happenedAt'> & {
  readonly runId: string;
  readonly at: Date;
  readonly happenedAt: Date;
};

/** Runs that a first piece speaks for: made at the same cell with the same set-up under the same procedure. */
const madeAlike = Prisma.sql`fr."cellId" = ru."cellId" AND fr."wpsId" IS NOT DISTINCT FROM ru."wpsId"
  AND fr."setUpId" IS NOT DISTINCT FROM ru."setUpId"`;
const runColumns = Prisma.sql`
  ru."id", ru."version", ru."jobStepId", j."number" AS "jobNumber", p."number" AS "partNumber", ru."cellId",
  c."code" AS "cellCode", ru."personId", pe."code" AS "personCode", pe."name" AS "personName",
  w."number" || ' r' || w."revision" AS "wpsLabel", ru."startedAt", ru."endedAt", j."quantity",
  js."goodCount" AS "stepGoodCount", js."quarantinedCount" AS "stepQuarantinedCount", ru."goodCount", ru."reworkCount", ru."scrapCount", ru."setUpMin", ru."arcS",
  ru."arcSource", ru."handOverNote", ru."startAsked", ru."startSaidAt", ru."startSaidBy", ru."startDifferences", j."id" AS "jobId", js."stepId", js."number" AS "stepNumber",
  j."revisionId", p."coded", ru."wpsId", ru."setUpId", ru."arcSPerPart", s."holdPoint", s."witnessMin",
  (SELECT fp."result" FROM "FirstPiece" fp JOIN "Run" fr ON fr."id" = fp."runId"
    WHERE fp."jobStepId" = ru."jobStepId" AND ${madeAlike}
    ORDER BY fp."signedAt" DESC, fp."id" DESC LIMIT 1) AS "firstPiece",
  (SELECT SUM(fr."goodCount") FROM "Run" fr
    WHERE fr."jobStepId" = ru."jobStepId" AND ${madeAlike}) AS "goodLikeThis", h."runId" AS "holdingRunId",
  h."personId" AS "holdingPersonId", hp."code" AS "holdingCode"`;
const runTables = Prisma.sql`
  "Run" ru
  JOIN "JobStep" js ON js."id" = ru."jobStepId"
  JOIN "Step" s ON s."id" = js."stepId"
  JOIN "Job" j ON j."id" = js."jobId"
  JOIN "Revision" r ON r."id" = j."revisionId"
  JOIN "Part" p ON p."id" = r."partId"
  JOIN "Cell" c ON c."id" = ru."cellId"
  JOIN "Person" pe ON pe."id" = ru."personId"
  LEFT JOIN "Wps" w ON w."id" = ru."wpsId"
  LEFT JOIN "Holding" h ON h."jobStepId" = ru."jobStepId"
  LEFT JOIN "Person" hp ON hp."id" = h."personId"`;

function toRecord(row: Row, stops: readonly StopRow[], readings: readonly ReadingRow[]): RunRecord {
  const { startedAt, endedAt, holdingRunId, holdingPersonId, holdingCode, goodLikeThis, ...said } =
    row;
  const { startAsked, startSaidAt, startSaidBy, startDifferences, ...rest } = said;
  const held = holdingRunId !== null && holdingPersonId !== null;
  return {
    ...rest,
    startedAt,
    endedAt,
    goodLikeThis: Number(goodLikeThis),
    holder: held
      ? { runId: holdingRunId, personId: holdingPersonId, code: holdingCode ?? '' }
      : null,
    view: {
      ...rest,
      startedAt: startedAt.toISOString(),
      endedAt: endedAt?.toISOString() ?? null,
      startAsked: Boolean(startAsked),
      start: startSaidAt && {
        ...{ at: startSaidAt.toISOString(), personCode: startSaidBy ?? '' },
        differences: StartDifference.array().parse(startDifferences),
      },
      stops: stops
        .filter(({ runId }) => runId === row.id)
        .map((stop) => ({
          ...stop,
          startedAt: stop.startedAt.toISOString(),
          endedAt: stop.endedAt?.toISOString() ?? null,
        })),
      readings: readings
        .filter(({ runId }) => runId === row.id)
        .map((reading) => ({
          ...reading,
          at: reading.at.toISOString(),
          happenedAt: reading.happenedAt.toISOString(),
        })),
    },
  };
}

export function runsReader(db: Db) {
  async function records(where: Prisma.Sql): Promise<RunRecord[]> {
    const rows = await db.$queryRaw<Row[]>`
      SELECT ${runColumns} FROM ${runTables} WHERE ${where} ORDER BY ru."startedAt", ru."id"`;
    if (rows.length === 0) return [];
    const ids = Prisma.join(rows.map(({ id }) => id));
    const stops = await db.$queryRaw<StopRow[]>`
      SELECT "runId", "id", "version", "cause", "note", "startedAt", "endedAt" FROM "Stop"
      WHERE "runId" IN (${ids}) ORDER BY "startedAt", "id"`;
    const readings = await db.$queryRaw<ReadingRow[]>`
      SELECT re."runId", re."id", re."at", re."happenedAt", re."weldNumber", re."currentA", re."voltageV",
        re."wireSpeedMMin", re."travelMmMin", re."preheatC", re."interpassC", re."instrument", re."place",
        re."result", p."code" AS "personCode"
      FROM "Reading" re JOIN "Person" p ON p."id" = re."personId"
      WHERE re."runId" IN (${ids}) ORDER BY re."at", re."id"`;
    return rows.map((row) => toRecord(row, stops, readings));
  }
  return {
    async run(id: string): Promise<RunRecord | null> {
      return (await records(Prisma.sql`ru."id" = ${id}`))[0] ?? null;
    },
    /** Null where there is no such job. */
    async ofJob(jobId: string): Promise<RunRecord[] | null> {
      const job = await db.job.findUnique({ where: { id: jobId }, select: { id: true } });
      return job && (await records(Prisma.sql`js."jobId" = ${jobId}`));
    },
    async person(id: string) {
      return db.person.findUnique({
        where: { id },
        select: { id: true, code: true, name: true, role: true, active: true },
      });
    },
    async welds(revisionId: string, stepNumber: number) {
      return db.weld.findMany({
        where: { revisionId, stepNumber },
        select: { number: true, process: true },
        orderBy: { number: 'asc' },
      });
    },
    async wpsRanges(wpsId: string): Promise<unknown> {
      const row = await db.wps.findUnique({ where: { id: wpsId }, select: { ranges: true } });
      return row?.ranges ?? null;
    },
    /** The day on which an instrument is due for its check; null for one that is not on file. */
    async instrumentDueOn(code: string): Promise<string | null> {
      const row = await db.instrument.findUnique({ where: { code }, select: { dueOn: true } });
      return row?.dueOn ?? null;
    },
  };
}
