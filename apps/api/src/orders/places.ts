import type { Displacement, Place } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { PlanCell } from './cell-plan-store.js';
import { couldDo, type PlannedStep } from './line-plan.js';
import { jobFinishes, walkQueues, type WalkLane, type WalkTimes } from './queue-walk.js';
import { endOfDay, instantOf, type ShopQueues } from './shop-queues.js';

/** The job that is being ordered; it has no row yet. */
const newJobId = 'new';
const newStepId = (stepNumber: number) => `${newJobId}-${stepNumber}`;
/** A delay below this is rounding. */
const leastLaterMin = 1;

/** Where a step of the new job stands: before a queued step, or at the end of a run queue. */
interface Spot {
  readonly cellId: string;
  readonly beforeStepId: string | null;
}

interface Asked {
  readonly steps: readonly PlannedStep[];
  readonly cells: readonly PlanCell[];
  /** The day by which the job is to be welded. */
  readonly weldBy: string;
  readonly timeZone: string;
}

export interface PlacedLine {
  readonly places: readonly Place[];
  /** As chosen, or at the end of the proposed cell; null where the calendars have no such hours. */
  readonly finishMin: number | null;
  readonly stepFinishMin: ReadonlyMap<number, number | null>;
}

/**
 * Two or three places for each step: as chosen, at the end of the run queue, at the end of the best other cell, and,
 * where the due date would be missed there, the last place of a queue from which it is kept. Each with what it
 * makes later. Without a choice the job goes to the end of the proposed cell.
 */
export function placeLine(queues: ShopQueues, asked: Asked): PlacedLine {
  const standing = new Map(asked.steps.map((planned) => [planned.step.number, spotOf(planned)]));
  const walk = (spots: ReadonlyMap<number, Spot>) => walkWith(queues, asked.steps, spots);
  const chosen = walk(standing);
  const places = asked.steps.flatMap((planned) => {
    const { number } = planned.step;
    return spotsFor(queues, planned, asked).map((spot) => {
      const own = sameSpot(spot, spotOf(planned));
      const walked = own ? chosen : walk(new Map(standing).set(number, spot));
      return toPlace({ queues, asked, planned, spot, walked, chosen: own });
    });
  });
  const finishOf = ({ step }: PlannedStep) =>
    chosen.times.get(newStepId(step.number))?.finishMin ?? null;
  return {
    places,
    finishMin: jobFinishes(chosen.lanes, chosen.times).get(newJobId) ?? null,
    stepFinishMin: new Map(asked.steps.map((step) => [step.step.number, finishOf(step)])),
  };
}

function spotOf({ cell, before }: PlannedStep): Spot {
  return { cellId: cell.id, beforeStepId: before?.stepId ?? null };
}

function sameSpot(one: Spot, other: Spot): boolean {
  return one.cellId === other.cellId && one.beforeStepId === other.beforeStepId;
}

interface Walked {
  readonly lanes: readonly WalkLane[];
  readonly times: WalkTimes;
}

function walkWith(
  { lanes, fromMin }: ShopQueues,
  steps: readonly PlannedStep[],
  spots: ReadonlyMap<number, Spot>,
): Walked {
  const added = lanes.map((lane) => {
    const standing = [...lane.steps];
    for (const { step, time } of steps) {
      const spot = spots.get(step.number);
      if (spot?.cellId !== lane.cellId) continue;
      const at = standing.findIndex(({ id }) => id === spot.beforeStepId);
      standing.splice(at < 0 ? standing.length : at, 0, {
        ...{ id: newStepId(step.number), jobId: newJobId, stepNumber: step.number },
        workMin: time.plannedMin,
      });
    }
    return { ...lane, steps: standing };
  });
  return { lanes: added, times: walkQueues(added, fromMin) };
}

/** The spots worth showing, without doubles. */
function spotsFor(queues: ShopQueues, planned: PlannedStep, asked: Asked): Spot[] {
  const { step, cell } = planned;
  const finishAt = (spot: Spot) =>
    walkWith(queues, [planned], new Map([[step.number, spot]])).times.get(newStepId(step.number))
      ?.finishMin ?? Infinity;
  const endOf = (cellId: string): Spot => ({ cellId, beforeStepId: null });
  const others = asked.cells
    .filter((each) => each.id !== cell.id && couldDo(step, each))
    .map(({ id }) => endOf(id))
    .toSorted((a, b) => finishAt(a) - finishAt(b));
  const ends = [endOf(cell.id), ...others.slice(0, 1)];
  const dueMin = endOfDay(asked.weldBy, asked.timeZone);
  const inTime = ends.some((spot) => finishAt(spot) <= dueMin);
  const ahead = inTime ? [] : [aheadOf(queues, cell.id, (spot) => finishAt(spot) <= dueMin)];
  const spots = [spotOf(planned), ...ends, ...ahead.filter((spot) => spot !== null)];
  return spots.filter((spot, at) => spots.findIndex((each) => sameSpot(each, spot)) === at);
}

/** The last place of a run queue that will do, else its front; nothing stands before a step in work. */
function aheadOf(
  { lanes, steps }: ShopQueues,
  cellId: string,
  willDo: (spot: Spot) => boolean,
): Spot | null {
  const movable = (lanes.find((lane) => lane.cellId === cellId)?.steps ?? []).filter(
    ({ id }) => steps.get(id)?.state !== 'held',
  );
  const spots = movable.map(({ id }): Spot => ({ cellId, beforeStepId: id }));
  // Further ahead never ends later, so the border between the two is found by halving.
  let [low, high] = [0, spots.length];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const spot = spots[middle - 1];
    if (spot !== undefined && willDo(spot)) low = middle;
    else high = middle - 1;
  }
  return spots[Math.max(0, low - 1)] ?? null;
}

function toPlace(found: {
  queues: ShopQueues;
  asked: Asked;
  planned: PlannedStep;
  spot: Spot;
  walked: Walked;
  chosen: boolean;
}): Place {
  const { queues, asked, planned, spot, walked, chosen } = found;
  const { step } = planned;
  const time = walked.times.get(newStepId(step.number));
  const finishMin = time?.finishMin ?? null;
  const finishAt = instantOf(finishMin);
  const before = spot.beforeStepId === null ? undefined : queues.steps.get(spot.beforeStepId);
  return {
    ...{ stepNumber: step.number, cellId: spot.cellId, beforeStepId: spot.beforeStepId },
    cellCode: asked.cells.find(({ id }) => id === spot.cellId)?.code ?? '',
    beforeJobNumber: before?.jobNumber ?? null,
    setUpKept: step.setUps.some(({ cellId }) => cellId === spot.cellId),
    startAt: instantOf(time?.startMin ?? null),
    finishAt,
    finishOn: finishAt === null ? null : shopDay(new Date(finishAt), asked.timeZone),
    spareMin: finishMin === null ? null : endOfDay(asked.weldBy, asked.timeZone) - finishMin,
    displaces: displacements(queues, walked, asked.timeZone),
    chosen,
  };
}

/** The jobs that finish later than they would without the new one, by customer. */
function displacements(
  queues: Pick<ShopQueues, 'lanes' | 'times' | 'steps'>,
  walked: Walked,
  timeZone: string,
): Displacement[] {
  const before = jobFinishes(queues.lanes, queues.times);
  const after = jobFinishes(walked.lanes, walked.times);
  const byCustomer = new Map<string, Displacement>();
  const jobs = new Map([...queues.steps.values()].map((step) => [step.jobId, step]));
  for (const [jobId, { jobNumber, customerName, weldBy }] of jobs) {
    const [was, is] = [before.get(jobId) ?? null, after.get(jobId) ?? null];
    if (was === null || (is !== null && is - was < leastLaterMin)) continue;
    const dueMin = endOfDay(weldBy, timeZone);
    const nowLate = was <= dueMin && (is === null || is > dueMin);
    const sofar = byCustomer.get(customerName);
    byCustomer.set(customerName, {
      customerName,
      jobNumbers: [...(sofar?.jobNumbers ?? []), jobNumber],
      laterMin: Math.max(sofar?.laterMin ?? 0, is === null ? 0 : Math.round(is - was)),
      lateJobNumbers: [...(sofar?.lateJobNumbers ?? []), ...(nowLate ? [jobNumber] : [])],
    });
  }
  return [...byCustomer.values()].toSorted((a, b) => b.laterMin - a.laterMin);
}
