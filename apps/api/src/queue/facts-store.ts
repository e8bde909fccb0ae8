import { Preparation, type Weld } from '@tackboard/contract';
import { SetUp, WpsRanges } from '@tackboard/contract';
import { z } from 'zod';
import type { Db } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import { groupBy } from '../group-by.js';
import type {
  CellFacts,
  CertificateFacts,
  LoadFacts,
  HoldFacts,
  OverrideFacts,
  StepFacts,
} from './facts.js';
import { stepColumns, stepTables, toStepRecord, type StepColumns } from './store.js';

type SetUpColumns = {
  [K in keyof Omit<SetUp, 'watchOuts' | 'frozenAt' | 'id' | 'version'>]: SetUp[K] | null;
};
interface FactColumns extends StepColumns, SetUpColumns {
  readonly laneStepId: string;
  readonly laneCellId: string;
  readonly jobReleased: boolean;
  readonly holdReason: string | null;
  readonly traceability: string;
  readonly revisionId: string;
  readonly revisionState: StepFacts['revisionState'];
  readonly laneCellCode: string;
  readonly laneCellKind: CellFacts['kind'];
  readonly laneMechanisation: CellFacts['mechanisation'];
  readonly stations: number;
  readonly gasLossFactor: number;
  readonly extraction: string;
  readonly startStopS: number;
  readonly airMovesS: number;
  readonly cleaningS: number;
  readonly loadS: number;
  readonly instructions: string;
  readonly holdPoint: boolean;
  readonly setUpId: string | null;
  readonly setUpVersion: number | null;
  readonly watchOuts: unknown;
  readonly frozenAt: Date | null;
  readonly programOnFile: string | null;
  readonly wpsId: string | null;
  readonly wpsRevision: number | null;
  readonly wpsTitle: string | null;
  readonly wpsCode: string | null;
  readonly wpsState: NonNullable<StepFacts['wps']>['state'] | null;
  readonly wpsRanges: unknown;
  readonly settingsResult: string | null;
  readonly toolPoint: string | null;
  readonly firstPiece: StepFacts['firstPiece'];
}

const factColumns = Prisma.sql`
  (SELECT ch."result" FROM "RunChange" ch WHERE ch."jobStepId" = js."id" AND ch."variable" <> 'programRevision'
    ORDER BY ch."at" DESC, ch."id" DESC LIMIT 1) AS "settingsResult",
  (SELECT CASE WHEN tp."kind" = 'check' AND tp."good" = true THEN 'good' ELSE 'open' END
    FROM "ToolPointEntry" tp WHERE tp."cellId" = c."id" ORDER BY tp."at" DESC, tp."id" DESC LIMIT 1) AS "toolPoint",
  js."stepId" AS "laneStepId", js."cellId" AS "laneCellId", j."released" AS "jobReleased", j."holdReason",
  p."traceability",
  j."revisionId", r."state" AS "revisionState", c."code" AS "laneCellCode", c."kind" AS "laneCellKind",
  c."mechanisation" AS "laneMechanisation", c."stations", c."gasLossFactor", c."extraction",
  s."startStopS", s."airMovesS", s."cleaningS", s."loadS", s."instructions", s."holdPoint",
  su."id" AS "setUpId", su."version" AS "setUpVersion", su."stepId", su."cellId", c."code" AS "cellCode",
  su."wireItemId", wi."name" AS "wireName", wi."designation" AS "wireDesignation", wi."wireDiameterMm",
  su."gasItemId", gi."name" AS "gasName", gi."designation" AS "gasDesignation", su."torch", su."mechanisation",
  su."currentA", su."voltageV", su."wireSpeedMMin", su."travelMmMin", su."gasFlowLMin", su."contactTipMm",
  su."preheatC", su."programId", pr."name" AS "programName", pr."revision" AS "programOnFile",
  su."programRevision", su."fixtureId", fx."code" AS "fixtureCode", fx."place" AS "fixturePlace",
  fx."condition" AS "fixtureCondition", su."watchOuts", su."frozenAt", COALESCE(fb."name", su."frozenBy") AS "frozenBy",
  su."frozenFromRunId",
  w."id" AS "wpsId", w."revision" AS "wpsRevision", w."title" AS "wpsTitle", w."state" AS "wpsState",
  w."code" AS "wpsCode",  w."ranges" AS "wpsRanges",
  (SELECT fp."result" FROM "FirstPiece" fp JOIN "Run" fr ON fr."id" = fp."runId"
    WHERE fp."jobStepId" = js."id" AND fr."cellId" = js."cellId"
      AND fr."setUpId" IS NOT DISTINCT FROM su."id" AND fr."wpsId" IS NOT DISTINCT FROM w."id"
    ORDER BY fp."signedAt" DESC, fp."id" DESC LIMIT 1) AS "firstPiece"`;
// A step in work keeps the procedure revision it was pulled under; a waiting one takes the one approved today.
const factTables = Prisma.sql`
  JOIN "Cell" c ON c."id" = js."cellId"
  LEFT JOIN "SetUp" su ON su."stepId" = js."stepId" AND su."cellId" = js."cellId" AND su."current" = true
  LEFT JOIN "Item" wi ON wi."id" = su."wireItemId"
  LEFT JOIN "Item" gi ON gi."id" = su."gasItemId"
  LEFT JOIN "Program" pr ON pr."id" = su."programId"
  LEFT JOIN "Fixture" fx ON fx."id" = su."fixtureId"
  LEFT JOIN "Person" fb ON fb."id" = su."frozenBy"
  LEFT JOIN "Wps" w ON w."id" = CASE WHEN js."state" = 'held' AND js."wpsId" IS NOT NULL THEN js."wpsId"
    ELSE (SELECT a."id" FROM "Wps" a WHERE a."number" = s."wpsNumber" AND a."state" = 'approved'
      ORDER BY a."revision" DESC LIMIT 1) END`;

const WatchOuts = z.array(z.string());

function toSetUp(row: FactColumns): SetUp | null {
  const { setUpId, setUpVersion, frozenAt } = row;
  if (setUpId === null || frozenAt === null) return null;
  return SetUp.parse({
    ...row,
    id: setUpId,
    version: setUpVersion,
    frozenAt: frozenAt.toISOString(),
    watchOuts: WatchOuts.parse(row.watchOuts),
  });
}

function toWps(row: FactColumns): StepFacts['wps'] {
  const { wpsId, wpsNumber, wpsRevision, wpsTitle, wpsState } = row;
  if (wpsId === null || wpsNumber === null || wpsRevision === null || wpsState === null)
    return null;
  return {
    ...{ id: wpsId, number: wpsNumber, revision: wpsRevision, state: wpsState },
    title: wpsTitle ?? '',
    code: row.wpsCode ?? '',
    ranges: WpsRanges.parse(row.wpsRanges),
  };
}

type Around = Pick<StepFacts, 'welds' | 'loads' | 'overrides' | 'holds'>;

function toFacts(row: FactColumns, around: Around): StepFacts {
  return {
    ...around,
    record: toStepRecord(row),
    stepId: row.laneStepId,
    jobReleased: row.jobReleased,
    holdReason: row.holdReason,
    traceability: row.traceability,
    revisionId: row.revisionId,
    revisionState: row.revisionState,
    cell: {
      id: row.laneCellId,
      code: row.laneCellCode,
      kind: row.laneCellKind,
      mechanisation: row.laneMechanisation,
      stations: row.stations,
      gasLossFactor: row.gasLossFactor,
      extraction: row.extraction,
    },
    step: row,
    setUp: toSetUp(row),
    firstPiece: row.firstPiece,
    programOnFile: row.programOnFile,
    settingsOutside: row.settingsResult === 'outside',
    toolPointOpen: row.toolPoint === 'open',
    wps: toWps(row),
  };
}

export interface RecentReading {
  readonly at: Date;
  readonly currentA: number | null;
  readonly voltageV: number | null;
  readonly wireSpeedMMin: number | null;
  readonly travelMmMin: number | null;
}

/** Readings of these last batches are shown on the range strips. */
const batchesOfReadings = 10;
const recentReadings = 20;

async function holdsOn(db: Db, jobIds: readonly string[]) {
  const ids = Prisma.join([...jobIds]);
  const rows = await db.$queryRaw<(HoldFacts & { jobId: string })[]>`
    SELECT jh."jobId", 'quarantine' AS "kind", jh."reason", 0 AS "stepNumber", NULL AS "dueAt"
    FROM "JobHold" jh WHERE jh."jobId" IN (${ids}) AND jh."liftedAt" IS NULL
    UNION ALL
    SELECT js."jobId", ip."kind", '' AS "reason", js."number" AS "stepNumber", ip."dueAt"
    FROM "JobStep" js JOIN "InspectionPoint" ip ON ip."jobStepId" = js."id"
    WHERE js."jobId" IN (${ids}) AND ip."result" IS NULL`;
  return groupBy(
    rows.map((row) => ({
      ...row,
      stepNumber: Number(row.stepNumber),
      dueAt: row.dueAt === null ? null : new Date(row.dueAt),
    })),
    ({ jobId }) => jobId,
  );
}

/** A query written by hand gives a JSON column as its text. */
function preparationOf(stored: unknown): Weld['preparation'] {
  const value: unknown = typeof stored === 'string' ? JSON.parse(stored) : stored;
  return Preparation.nullable().parse(value);
}

async function weldsOn(db: Db, revisionIds: readonly string[]) {
  const rows = await db.$queryRaw<
    (Omit<Weld, 'preparation'> & { preparation: unknown; revisionId: string })[]
  >`
    SELECT "id", "revisionId", "number", "jointType", "throatMm", "legMm", "grooveDepthMm",
      "holeWidthMm", "preparation",
      "lengthMm", "count",
      "thicknessAMm", "thicknessBMm", "materialA", "materialB", "materialGroupA", "materialGroupB", "position",
      "process", "stepNumber", "qualityLevel", "sizeUnderMm",
      "sizeOverMm", "notes"
    FROM "Weld" WHERE "revisionId" IN (${Prisma.join([...revisionIds])}) ORDER BY "number"`;
  const read = rows.map((row) => ({ ...row, preparation: preparationOf(row.preparation) }));
  return groupBy(read, ({ revisionId }) => revisionId);
}

async function loadsOn(db: Db, cellIds: readonly string[]) {
  const rows = await db.$queryRaw<(LoadFacts & { cellId: string })[]>`
    SELECT ll."cellId", ll."kind", l."itemId", i."name" AS "itemName", i."designation", i."unit",
      l."number" AS "lotNumber", l."certificate", ll."leftAmount"
    FROM "LotLoad" ll JOIN "Lot" l ON l."id" = ll."lotId" JOIN "Item" i ON i."id" = l."itemId"
    WHERE ll."cellId" IN (${Prisma.join([...cellIds])}) AND ll."kind" IN ('wire', 'gas') AND ll."unloadedAt" IS NULL
    ORDER BY ll."loadedAt" DESC`;
  return groupBy(rows, ({ cellId }) => cellId);
}

async function overridesOn(db: Db, jobIds: readonly string[]) {
  const rows = await db.$queryRaw<(OverrideFacts & { jobId: string })[]>`
    SELECT o."jobId", o."jobStepId", o."rule", COALESCE(p."code", o."personId") AS "signedBy",
      o."forPerson" AS "forPersonId", o."expiresAt"
    FROM "Override" o LEFT JOIN "Person" p ON p."id" = o."personId"
    WHERE o."jobId" IN (${Prisma.join([...jobIds])}) ORDER BY o."signedAt" DESC`;
  return groupBy(rows, ({ jobId }) => jobId);
}

/** Reads what the set-up card and the ready check are decided from; many steps at once. */
export function factsReader(db: Db) {
  return {
    /** In the order of the ids; an unknown id is not in the answer. */
    async facts(jobStepIds: readonly string[]): Promise<StepFacts[]> {
      if (jobStepIds.length === 0) return [];
      const rows = await db.$queryRaw<FactColumns[]>`
        SELECT ${stepColumns}, ${factColumns} FROM "JobStep" js ${stepTables} ${factTables}
        WHERE js."id" IN (${Prisma.join([...jobStepIds])})`;
      if (rows.length === 0) return [];
      const of = (key: (row: FactColumns) => string) => [...new Set(rows.map(key))];
      const weldsOf = await weldsOn(
        db,
        of((row) => row.revisionId),
      );
      const loadsOf = await loadsOn(
        db,
        of((row) => row.laneCellId),
      );
      const jobIds = of((row) => row.jobId);
      const overridesOf = await overridesOn(db, jobIds);
      const holdsOf = await holdsOn(db, jobIds);
      const byId = new Map(
        rows.map((row) => [
          row.id,
          toFacts(row, {
            welds: (weldsOf.get(row.revisionId) ?? []).filter(
              ({ stepNumber }) => stepNumber === row.stepNumber,
            ),
            loads: loadsOf.get(row.laneCellId) ?? [],
            overrides: overridesOf.get(row.jobId) ?? [],
            holds: holdsOf.get(row.jobId) ?? [],
          }),
        ]),
      );
      return jobStepIds.flatMap((id) => byId.get(id) ?? []);
    },
    /** Every certificate of an active person with its latest confirmation. */
    async certificates(): Promise<CertificateFacts[]> {
      return db.$queryRaw<CertificateFacts[]>`
        SELECT ce."id", ce."personId", p."code" AS "personCode", p."name" AS "personName", ce."kind", ce."number",
          ce."process", ce."cellId", ce."jointTypes", ce."positions", ce."thicknessMinMm", ce."thicknessMaxMm",
          ce."code", ce."materialGroups", ce."fillerGroups", ce."testedOn", ce."renewalRoute", ce."functionTestOn",
          ce."validUntil", ce."revokedOn",
          (SELECT MAX(co."confirmedOn") FROM "Confirmation" co WHERE co."certificateId" = ce."id") AS "confirmedOn"
        FROM "Certificate" ce JOIN "Person" p ON p."id" = ce."personId"
        WHERE p."active" = true`;
    },
    /** Readings of the last batches of this step of the revision, newest first. */
    async readings(at: { revisionId: string; stepId: string }): Promise<RecentReading[]> {
      return db.$queryRaw<RecentReading[]>`
        SELECT re."at", re."currentA", re."voltageV", re."wireSpeedMMin", re."travelMmMin"
        FROM (SELECT "id" FROM "Job" WHERE "revisionId" = ${at.revisionId}
          ORDER BY "createdAt" DESC LIMIT ${batchesOfReadings}) j
        JOIN "JobStep" js ON js."jobId" = j."id" AND js."stepId" = ${at.stepId}
        JOIN "Run" ru ON ru."jobStepId" = js."id"
        JOIN "Reading" re ON re."runId" = ru."id"
        ORDER BY re."at" DESC LIMIT ${recentReadings}`;
    },
  };
}
