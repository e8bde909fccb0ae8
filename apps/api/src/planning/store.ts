import { WpsRanges } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { KeptSetUp } from './change-over.js';
import type { StepAbilities } from './eligible.js';
import type { RunAtCell } from './measured.js';

/** What planning knows of an open job step beyond its place on the board. */
export interface StepPlanFacts extends StepAbilities {
  readonly stepId: string;
  readonly setUps: ReadonlyMap<string, KeptSetUp>;
}

const setUpColumns = {
  ...{ wireItemId: true, gasItemId: true, torch: true, fixtureId: true, programId: true },
} as const satisfies Prisma.SetUpSelect;

const columns = {
  id: true,
  step: {
    select: {
      id: true,
      number: true,
      cellKind: true,
      wpsNumber: true,
      revision: { select: { welds: { select: { process: true, stepNumber: true } } } },
      setUps: {
        where: { current: true },
        select: {
          ...{ cellId: true, ...setUpColumns },
        },
      },
    },
  },
} as const satisfies Prisma.JobStepSelect;
type Row = Prisma.JobStepGetPayload<{ select: typeof columns }>;

export function planningReader(db: Db) {
  return {
    /** The ended runs of all cells since a day, by cell in the order in which they began. */
    async runsSince(since: Date): Promise<RunAtCell[]> {
      const runs = await db.run.findMany({
        where: { startedAt: { gte: since }, endedAt: { not: null } },
        select: {
          ...{ id: true, cellId: true, setUpMin: true, setUpId: true },
          jobStep: { select: { stepId: true } },
        },
        orderBy: [{ cellId: 'asc' }, { startedAt: 'asc' }],
      });
      const stops = await db.stop.findMany({
        where: { cause: 'setUp', endedAt: { not: null }, run: { startedAt: { gte: since } } },
        select: { runId: true, startedAt: true, endedAt: true },
      });
      const setUps = await db.setUp.findMany({
        where: { runs: { some: { startedAt: { gte: since } } } },
        select: { id: true, ...setUpColumns },
      });
      const kept = new Map(setUps.map(({ id, ...setUp }) => [id, setUp]));
      const stoppedMin = new Map<string, number>();
      for (const { runId, startedAt, endedAt } of stops) {
        const minutes = ((endedAt ?? startedAt).getTime() - startedAt.getTime()) / 60_000;
        stoppedMin.set(runId, (stoppedMin.get(runId) ?? 0) + minutes);
      }
      return runs.map(({ id, setUpId, jobStep, ...run }) => ({
        ...run,
        stepId: jobStep.stepId,
        stoppedMin: stoppedMin.get(id) ?? 0,
        setUp: kept.get(setUpId ?? '') ?? null,
      }));
    },
    /** Every open job step by its id. */
    async openSteps(): Promise<Map<string, StepPlanFacts>> {
      const rows = await db.jobStep.findMany({
        where: { state: { in: ['blocked', 'waiting', 'held'] } },
        select: columns,
      });
      const approved = await db.wps.findMany({
        where: { state: 'approved' },
        select: { number: true, ranges: true },
      });
      const allowed = new Map(
        approved.map(({ number, ranges }) => [number, WpsRanges.parse(ranges).mechanisations]),
      );
      return new Map(rows.map((row) => [row.id, toFacts(row, allowed)]));
    },
  };
}

function toFacts({ step }: Row, allowed: ReadonlyMap<string, readonly string[]>): StepPlanFacts {
  const welds = step.revision.welds.filter(({ stepNumber }) => stepNumber === step.number);
  const setUps = new Map(step.setUps.map(({ cellId, ...kept }) => [cellId, kept] as const));
  return {
    stepId: step.id,
    cellKind: step.cellKind,
    processes: [...new Set(welds.map(({ process }) => process))],
    mechanisations: allowed.get(step.wpsNumber ?? '') ?? [],
    setUpCellIds: [...setUps.keys()],
    setUps,
  };
}
