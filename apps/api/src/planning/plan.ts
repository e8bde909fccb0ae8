import type {
  LaneOrder,
  LearntChangeOver,
  PlanProblem,
  PlanStep,
  PolicyTable,
} from '@tackboard/calc';
import type { Cell, CellHours, Lane, QueuedStep } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { CertificateFacts } from '../queue/facts.js';
import { isAnybodyQualified } from '../queue/person-rule.js';
import { endOfDay } from '../week/span.js';
import { plannedHours, type PlannedHours } from './cell-hours.js';
import type { KeptSetUp } from './change-over.js';
import { eligibleCells } from './eligible.js';
import type { StepPlanFacts } from './store.js';

const msPerMin = 60_000;
/** No customer weighs more than another: nothing on file says so. */
const weight = 1;

/** What a step needs in place, per cell of the plan; null where no set-up is kept. */
export interface PlanSetUp {
  readonly stepId: string;
  readonly setUpMin: number;
  readonly kept: readonly (KeptSetUp | null)[];
}

/** All that a search needs, as plain data: it goes to another thread. */
export interface Plan {
  /** Without its set-up table, which is large and follows from `setUps`. */
  readonly problem: PlanProblem & { readonly today: LaneOrder };
  /** In the order of the steps. */
  readonly setUps: readonly PlanSetUp[];
  /** Job minutes per minute of the clock, per cell. */
  readonly pace: readonly number[];
  /** What change-overs took, per cell, where enough were measured. */
  readonly learnt: readonly (readonly LearntChangeOver[])[];
}

export interface ShopFacts {
  readonly lanes: readonly Lane[];
  readonly steps: ReadonlyMap<string, StepPlanFacts>;
  readonly cells: readonly Cell[];
  /** Of every active person; what they hold decides at which robots a step can be done. */
  readonly certificates: readonly CertificateFacts[];
  readonly policy: PolicyTable;
  readonly hours: readonly CellHours[];
  /** What change-overs took at each cell, where enough were measured. */
  readonly learnt: ReadonlyMap<string, readonly LearntChangeOver[]>;
  readonly now: Date;
  readonly timeZone: string;
}

export interface PreparedPlan {
  readonly plan: Plan;
  /** What is not in the plan, and why, in words. */
  readonly notes: readonly string[];
}

interface PlannedLane {
  readonly lane: Lane;
  readonly hours: PlannedHours;
}

/**
 * The run queues as a problem to be planned, in whole minutes from now. Queues of cells without hours are left as
 * they are, and so is all that waits for a step in them.
 */
export function preparePlan(facts: ShopFacts): PreparedPlan {
  const start = new Date(Math.floor(facts.now.getTime() / msPerMin) * msPerMin);
  const all = facts.lanes.map((lane) => ({
    lane,
    hours: plannedHours(windowsOf(facts, lane.cellId), start),
  }));
  const shut = all.filter(({ hours }) => hours.pace === 0);
  const former = formerSteps(facts.lanes);
  const out = leftOut(shut, former);
  const lanes = all
    .filter(({ hours }) => hours.pace > 0)
    .map(({ lane, hours }) => ({
      lane: { ...lane, steps: lane.steps.filter(({ id }) => !out.has(id)) },
      hours,
    }));
  const steps = lanes.flatMap(({ lane }) => lane.steps.map((step) => ({ step, lane })));
  const isStaffed = staffingOf(facts);
  const problem = {
    cells: lanes.map(({ lane, hours }) => ({
      ...{ id: lane.cellId, freeFromMin: 0, hours: hours.hours },
    })),
    steps: steps.map((queued) => planStep(queued, { facts, lanes, former, start, isStaffed })),
    today: lanes.map(({ lane }) => lane.steps.map(({ id }) => id)),
  };
  const plan = {
    problem,
    setUps: steps.map(({ step }) => planSetUp(step, facts.steps.get(step.id), lanes)),
    pace: lanes.map(({ hours }) => hours.pace),
    learnt: lanes.map(({ lane }) => facts.learnt.get(lane.cellId) ?? []),
  };
  return { plan, notes: notesOf(shut, out.size) };
}

function windowsOf({ hours }: ShopFacts, cellId: string): CellHours['windows'] {
  return hours.find((cell) => cell.cellId === cellId)?.windows ?? [];
}

/** For each step the open step of its job that comes right before it. */
function formerSteps(lanes: readonly Lane[]): Map<string, string> {
  const all = lanes
    .flatMap(({ steps }) => steps)
    .toSorted((a, b) => a.jobNumber - b.jobNumber || a.stepNumber - b.stepNumber);
  return new Map(
    all.flatMap((step, at) => {
      const before = all[at - 1];
      return before?.jobId === step.jobId ? [[step.id, before.id] as const] : [];
    }),
  );
}

function leftOut(shut: readonly PlannedLane[], former: ReadonlyMap<string, string>): Set<string> {
  const out = new Set(shut.flatMap(({ lane }) => lane.steps.map(({ id }) => id)));
  let size = -1;
  while (size !== out.size) {
    size = out.size;
    for (const [id, before] of former) if (out.has(before)) out.add(id);
  }
  return out;
}

interface Surroundings {
  readonly facts: ShopFacts;
  readonly lanes: readonly PlannedLane[];
  readonly former: ReadonlyMap<string, string>;
  readonly start: Date;
  readonly isStaffed: Staffing;
}

function planStep(
  { step, lane: at }: { step: QueuedStep; lane: Lane },
  { facts, lanes, former, start, isStaffed }: Surroundings,
): PlanStep {
  const held = step.state === 'held';
  const known = facts.steps.get(step.id);
  const cells =
    held || known === undefined
      ? new Set([at.cellId])
      : eligibleCells(known, {
          ...{ cells: facts.cells, standsAt: at.cellId },
          isStaffed: (cell) => isStaffed(known, cell),
        });
  const before = former.get(step.id);
  const dueAt = endOfDay(step.weldBy, facts.timeZone);
  return {
    id: step.id,
    customer: step.customerName,
    weight,
    dueMin: Math.floor((dueAt.getTime() - start.getTime()) / msPerMin),
    releaseMin: 0,
    processingMin: lanes.map(({ lane, hours }) =>
      cells.has(lane.cellId) ? Math.max(1, Math.ceil(workMin(step) / hours.pace)) : null,
    ),
    ...(held ? { hold: 'started' as const } : {}),
    ...(held || before === undefined ? {} : { after: [before] }),
  };
}

type Staffing = (step: StepPlanFacts, cell: Cell) => boolean;

/** At a booth anybody may weld whom another booth has; at a robot its own operators alone. Told once of each step. */
function staffingOf({ certificates, policy, now, timeZone }: ShopFacts): Staffing {
  const today = shopDay(now, timeZone);
  const told = new Map<string, boolean>();
  const isQualifiedAt = ({ cycle: { welds }, code }: StepPlanFacts, cell: Cell): boolean => {
    const own = certificates.filter(({ cellId }) => cellId === cell.id);
    return isAnybodyQualified({ certificates: own, cell, welds, today, code, policy });
  };
  return (step, cell) => {
    if (cell.kind !== 'robot') return true;
    const key = `${step.stepId} ${cell.id}`;
    const answer = told.get(key) ?? isQualifiedAt(step, cell);
    told.set(key, answer);
    return answer;
  };
}

/** Minutes of a step that are still to be worked, without its setting up: that depends on the step before it. */
function workMin({ plannedMin, setUpMin, quantity, goodCount, scrapCount }: QueuedStep): number {
  return Math.max(0, plannedMin - setUpMin) * Math.max(0, 1 - (goodCount + scrapCount) / quantity);
}

function planSetUp(
  step: QueuedStep,
  known: StepPlanFacts | undefined,
  lanes: readonly PlannedLane[],
): PlanSetUp {
  const begun = step.state === 'held' && step.goodCount + step.scrapCount > 0;
  return {
    stepId: known?.stepId ?? step.id,
    // Parts have been made: the cell is set up for it.
    setUpMin: begun ? 0 : step.setUpMin,
    kept: lanes.map(({ lane }) => known?.setUps.get(lane.cellId) ?? null),
  };
}

function notesOf(shut: readonly PlannedLane[], steps: number): string[] {
  const codes = shut.filter(({ lane }) => lane.steps.length > 0).map(({ lane }) => lane.cellCode);
  if (codes.length === 0) return [];
  return [
    `${codes.join(', ')} ${codes.length === 1 ? 'has' : 'have'} no working hours: ${steps === 1 ? '1 step that stands or waits there is' : `${steps} steps that stand or wait there are`} left as planned. The manager sets hours under Cells.`,
  ];
}
