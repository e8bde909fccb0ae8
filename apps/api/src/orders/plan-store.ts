import { SetUp, Weld } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import { approvedByNumber, approvedQuery, type ApprovedWps } from './approved-wps.js';
import { groupBy } from '../group-by.js';
import type { LastMade } from './revision-state.js';
import type { StepTimes } from './planned-time-of.js';
import type { PastRun } from './planning.js';
import type { KeptSetUp } from './ready-notes.js';

/** Enough for a median; older runs say little about how the step is made today. */
const runsPerStep = 30;

const partIncludes = {
  customer: { select: { id: true, name: true } },
  revisions: {
    where: { state: 'released' },
    include: {
      welds: { orderBy: { number: 'asc' } },
      steps: {
        orderBy: { number: 'asc' },
        include: {
          setUps: {
            where: { current: true },
            orderBy: { frozenAt: 'desc' },
            include: { wireItem: true, gasItem: true, program: true, fixture: true },
          },
        },
      },
    },
  },
} as const satisfies Prisma.PartInclude;
type PartRow = Prisma.PartGetPayload<{ include: typeof partIncludes }>;
type StepRow = PartRow['revisions'][number]['steps'][number];

export type SetUpAtCell = Omit<KeptSetUp, 'frozenOn'> & {
  readonly cellId: string;
  readonly frozenAt: Date;
  readonly currentA: number | null;
};
export interface PlanStep
  extends StepTimes, Pick<StepRow, 'id' | 'number' | 'name' | 'wpsNumber' | 'massKg' | 'reachMm'> {
  readonly setUps: readonly SetUpAtCell[];
  readonly welds: readonly Weld[];
  /** Degrees of mechanisation that its approved procedure allows; empty where it has none. */
  readonly mechanisations: readonly string[];
}
export interface PlanPart {
  readonly id: string;
  readonly number: string;
  readonly active: boolean;
  readonly coded: boolean;
  readonly returnChance: string;
  readonly outsideWork: string;
  readonly outsideDays: number;
  /** Whom the part is kept for; null where for nobody in particular. */
  readonly customer: { readonly id: string; readonly name: string } | null;
  readonly released: {
    readonly id: string;
    readonly label: string;
    readonly drawingPrint: string | null;
    readonly steps: readonly PlanStep[];
  } | null;
}

function weldsOf(number: number, welds: PartRow['revisions'][number]['welds']): Weld[] {
  return welds.filter(({ stepNumber }) => stepNumber === number).map((weld) => Weld.parse(weld));
}

function toStep(
  row: StepRow,
  welds: PartRow['revisions'][number]['welds'],
  approved: ReadonlyMap<string, ApprovedWps>,
): PlanStep {
  return {
    ...row,
    mechanisations: approved.get(row.wpsNumber ?? '')?.mechanisations ?? [],
    welds: weldsOf(row.number, welds),
    setUps: row.setUps.map(({ wireItem, gasItem, ...setUp }) => ({
      ...setUp,
      mechanisation: SetUp.shape.mechanisation.parse(setUp.mechanisation),
      wireName: wireItem?.name ?? null,
      wireDesignation: wireItem?.designation ?? null,
      wireDiameterMm: wireItem?.wireDiameterMm ?? null,
      gasName: gasItem?.name ?? null,
      gasDesignation: gasItem?.designation ?? null,
    })),
  };
}

function toPart(
  { revisions: [released], ...part }: PartRow,
  approved: ReadonlyMap<string, ApprovedWps>,
): PlanPart {
  return {
    ...part,
    released: released
      ? {
          id: released.id,
          label: released.label,
          drawingPrint: released.drawingPrint,
          steps: released.steps.map((step) => toStep(step, released.welds, approved)),
        }
      : null,
  };
}

export interface PartHistory {
  /** Who has ordered the part before. */
  readonly customerIds: ReadonlySet<string>;
  readonly quantities: readonly number[];
  readonly lastMade: (Omit<LastMade, 'on'> & { finishedAt: Date }) | null;
}

/** Reads what an order line is judged by; every function answers for all lines at once. */
export function planReader(db: Db) {
  return {
    async parts(ids: readonly string[]): Promise<Map<string, PlanPart>> {
      const rows = await db.part.findMany({
        where: { id: { in: [...new Set(ids)] } },
        include: partIncludes,
      });
      const approved = approvedByNumber(await db.wps.findMany(approvedQuery));
      return new Map(rows.map((row) => [row.id, toPart(row, approved)]));
    },
    /** The steps of revisions as they stand, released or not, and whether their part is coded. */
    async revisionSteps(
      ids: readonly string[],
    ): Promise<Map<string, { coded: boolean; steps: readonly PlanStep[] }>> {
      const rows = await db.revision.findMany({
        where: { id: { in: [...new Set(ids)] } },
        include: { ...partIncludes.revisions.include, part: { select: { coded: true } } },
      });
      const approved = approvedByNumber(await db.wps.findMany(approvedQuery));
      return new Map(
        rows.map(({ id, part, steps, welds }) => [
          id,
          { coded: part.coded, steps: steps.map((step) => toStep(step, welds, approved)) },
        ]),
      );
    },
    async stepTimes(ids: readonly string[]): Promise<Map<string, StepTimes>> {
      const rows = await db.step.findMany({
        where: { id: { in: [...ids] } },
        include: {
          setUps: {
            where: { current: true },
            select: { cellId: true, travelMmMin: true, wireSpeedMMin: true, wireItem: true },
          },
          revision: { select: { welds: true } },
        },
      });
      return new Map(
        rows.map(({ revision, setUps, ...row }) => [
          row.id,
          { ...row, welds: weldsOf(row.number, revision.welds), setUps: setUps.map(dialled) },
        ]),
      );
    },
    async histories(partIds: readonly string[]): Promise<Map<string, PartHistory>> {
      const rows = await db.job.findMany({
        where: { revision: { partId: { in: [...new Set(partIds)] } }, state: { not: 'cancelled' } },
        select: {
          quantity: true,
          finishedAt: true,
          revision: { select: { label: true, partId: true } },
          order: { select: { customerId: true } },
        },
      });
      const byPart = groupBy(rows, ({ revision }) => revision.partId);
      return new Map([...byPart].map(([partId, jobs]) => [partId, historyOf(jobs)]));
    },
    async pastRuns(stepIds: readonly string[]): Promise<Map<string, PastRun[]>> {
      const rows = await db.run.findMany({
        where: { jobStep: { stepId: { in: [...stepIds] } }, endedAt: { not: null } },
        select: {
          startedAt: true,
          endedAt: true,
          goodCount: true,
          reworkCount: true,
          scrapCount: true,
          setUpMin: true,
          stops: { select: { cause: true, startedAt: true, endedAt: true } },
          jobStep: { select: { stepId: true } },
        },
        orderBy: { startedAt: 'desc' },
        take: runsPerStep * stepIds.length,
      });
      const byStep = groupBy(rows, ({ jobStep }) => jobStep.stepId);
      return new Map([...byStep].map(([stepId, runs]) => [stepId, runs.flatMap(toPastRun)]));
    },
  };
}

function dialled<Row extends { wireItem: { wireDiameterMm: number | null } | null }>({
  wireItem,
  ...setUp
}: Row) {
  return { ...setUp, wireDiameterMm: wireItem?.wireDiameterMm ?? null };
}

function historyOf(
  jobs: readonly {
    quantity: number;
    finishedAt: Date | null;
    revision: { label: string };
    order: { customerId: string };
  }[],
): PartHistory {
  const last = jobs
    .flatMap(({ finishedAt, revision }) =>
      finishedAt === null ? [] : [{ revision: revision.label, finishedAt }],
    )
    .toSorted((a, b) => b.finishedAt.getTime() - a.finishedAt.getTime())[0];
  return {
    customerIds: new Set(jobs.map(({ order }) => order.customerId)),
    quantities: jobs.map(({ quantity }) => quantity),
    lastMade: last ?? null,
  };
}

function toPastRun(row: {
  startedAt: Date;
  endedAt: Date | null;
  goodCount: number;
  reworkCount: number;
  scrapCount: number;
  setUpMin: number;
  stops: PastRun['stops'];
}): PastRun[] {
  const { endedAt, goodCount, reworkCount, scrapCount, ...run } = row;
  return endedAt === null
    ? []
    : [{ ...run, endedAt, madeCount: goodCount + reworkCount + scrapCount }];
}
