import { Weld } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { KeptSetUp } from './change-over.js';
import { approvedByNumber, approvedQuery, type ApprovedWps } from '../orders/approved-wps.js';
import type { StepToPlace } from './eligible.js';
import type { RunAtCell } from './measured.js';

/** What planning knows of an open job step beyond its place on the board. */
export interface StepPlanFacts extends StepToPlace {
  readonly stepId: string;
  /** Of the approved procedure; null where there is none. */
  readonly code: string | null;
  readonly setUps: ReadonlyMap<string, KeptSetUp>;
}

const columns = {
  revision: { select: { welds: true } },
  setUps: {
    where: { current: true },
    select: {
      ...{ cellId: true, wireItemId: true, gasItemId: true, torch: true },
      ...{ fixtureId: true, programId: true },
      ...{ mechanisation: true, currentA: true, travelMmMin: true, wireSpeedMMin: true },
      wireItem: { select: { wireDiameterMm: true } },
    },
  },
} as const satisfies Prisma.StepInclude;
type Row = Prisma.StepGetPayload<{ include: typeof columns }>;

interface RunColumns extends Pick<RunAtCell, 'cellId' | 'stepId' | 'setUpMin'>, KeptSetUp {
  readonly id: string;
  /** Null where none was kept; the columns of the set-up say nothing then. */
  readonly setUpId: string | null;
}

export function planningReader(db: Db) {
  return {
    /** The ended runs of all cells since a day, by cell in the order in which they began. */
    async runsSince(since: Date): Promise<RunAtCell[]> {
      const runs = await db.$queryRaw<RunColumns[]>`
        SELECT r."id", r."cellId", js."stepId", r."setUpMin", su."id" AS "setUpId", su."wireItemId",
          su."gasItemId", su."torch", su."fixtureId", su."programId"
        FROM "Run" r JOIN "JobStep" js ON js."id" = r."jobStepId" LEFT JOIN "SetUp" su ON su."id" = r."setUpId"
        WHERE r."startedAt" >= ${since} AND r."endedAt" IS NOT NULL
        ORDER BY r."cellId", r."startedAt"`;
      const stops = await db.$queryRaw<{ runId: string; startedAt: Date; endedAt: Date }[]>`
        SELECT st."runId", st."startedAt", st."endedAt"
        FROM "Stop" st JOIN "Run" r ON r."id" = st."runId"
        WHERE r."startedAt" >= ${since} AND st."cause" = 'setUp' AND st."endedAt" IS NOT NULL`;
      const stoppedMin = new Map<string, number>();
      for (const { runId, startedAt, endedAt } of stops) {
        const minutes = (endedAt.getTime() - startedAt.getTime()) / 60_000;
        stoppedMin.set(runId, (stoppedMin.get(runId) ?? 0) + minutes);
      }
      return runs.map(({ id, cellId, stepId, setUpMin, setUpId, ...setUp }) => ({
        ...{ cellId, stepId, setUpMin },
        stoppedMin: stoppedMin.get(id) ?? 0,
        setUp: setUpId === null ? null : setUp,
      }));
    },
    /** Every open job step by its id. */
    async openSteps(): Promise<Map<string, StepPlanFacts>> {
      const open = await db.jobStep.findMany({
        where: { state: { in: ['blocked', 'waiting', 'held'] } },
        select: { id: true, stepId: true },
      });
      // Many jobs make the same part: what is known of it is read once.
      const rows = await db.step.findMany({
        where: { id: { in: [...new Set(open.map(({ stepId }) => stepId))] } },
        include: columns,
      });
      const approved = approvedByNumber(await db.wps.findMany(approvedQuery));
      const known = new Map(rows.map((row) => [row.id, toFacts(row, approved)]));
      return new Map(
        open.flatMap(({ id, stepId }) => {
          const facts = known.get(stepId);
          return facts === undefined ? [] : [[id, facts] as const];
        }),
      );
    },
  };
}

function toFacts(step: Row, approved: ReadonlyMap<string, ApprovedWps>): StepPlanFacts {
  const { revision, setUps, ...times } = step;
  const welds = revision.welds.filter(({ stepNumber }) => stepNumber === step.number);
  const wps = approved.get(step.wpsNumber ?? '');
  return {
    stepId: step.id,
    processes: [...new Set(welds.map(({ process }) => process))],
    mechanisations: wps?.mechanisations ?? [],
    code: wps?.code ?? null,
    handling: { massKg: step.massKg, reachMm: step.reachMm },
    setUps: new Map(setUps.map(({ cellId, ...kept }) => [cellId, keptOf(kept)] as const)),
    cycle: {
      ...times,
      welds: welds.map((weld) => Weld.parse(weld)),
      setUps: setUps.map(({ wireItem, ...kept }) => ({
        ...kept,
        wireDiameterMm: wireItem?.wireDiameterMm ?? null,
      })),
    },
  };
}

function keptOf({ wireItemId, gasItemId, torch, fixtureId, programId }: KeptSetUp): KeptSetUp {
  return { wireItemId, gasItemId, torch, fixtureId, programId };
}
