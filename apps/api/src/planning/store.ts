import { WpsRanges } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import type { KeptSetUp } from './change-over.js';
import type { StepAbilities } from './eligible.js';

/** What planning knows of an open job step beyond its place on the board. */
export interface StepPlanFacts extends StepAbilities {
  readonly stepId: string;
  readonly setUps: ReadonlyMap<string, KeptSetUp>;
}

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
          cellId: true,
          ...{ wireItemId: true, gasItemId: true, torch: true, fixtureId: true, programId: true },
        },
      },
    },
  },
} as const satisfies Prisma.JobStepSelect;
type Row = Prisma.JobStepGetPayload<{ select: typeof columns }>;

export function planningReader(db: Db) {
  return {
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
