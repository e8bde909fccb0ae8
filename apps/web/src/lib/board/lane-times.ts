import { queueTimes, type PlannedTime, type WorkingWindow } from '@tackboard/calc';
import type { CellHours, Lane, QueuedStep } from '@tackboard/contract';
import { keepEqual } from '../live/keep-equal.js';

const msPerMin = 60_000;

export function minuteOf(instant: string): number {
  return Date.parse(instant) / msPerMin;
}

export function instantOf(minute: number): Date {
  return new Date(Math.round(minute * msPerMin));
}

/** The working time of each cell, by the id of the cell. */
export function windowsByCell(
  cells: readonly Pick<CellHours, 'cellId' | 'windows'>[],
): ReadonlyMap<string, readonly WorkingWindow[]> {
  return new Map(cells.map(({ cellId, windows }) => [cellId, windows.map(toWindow)]));
}

function toWindow({ from, to, share }: CellHours['windows'][number]): WorkingWindow {
  return { startMin: minuteOf(from), endMin: minuteOf(to), share };
}

type Planned = Pick<
  QueuedStep,
  'plannedMin' | 'setUpMin' | 'quantity' | 'goodCount' | 'scrapCount'
>;

/** The planned minutes that are still ahead: what is set up and what is made is behind. */
export function restMin({
  plannedMin,
  setUpMin,
  quantity,
  goodCount,
  scrapCount,
}: Planned): number {
  const made = goodCount + scrapCount;
  if (made <= 0) return plannedMin;
  const runMin = Math.max(0, plannedMin - setUpMin);
  return runMin * Math.max(0, 1 - made / quantity);
}

export type StepTimes = ReadonlyMap<string, PlannedTime>;
type Queued = Planned & Pick<QueuedStep, 'id' | 'jobId' | 'stepNumber'>;
interface Queue {
  readonly cellId: Lane['cellId'];
  readonly steps: readonly Queued[];
}

interface Shop {
  readonly lanes: readonly Queue[];
  readonly windows: ReadonlyMap<string, readonly WorkingWindow[]>;
  readonly nowMin: number;
}

/**
 * When each step on the board is planned, every queue in its order. A later step of a job does not start before
 * the earlier one is finished at its own cell, so the queues are walked again until nothing moves any more. Steps
 * that wait for each other in a circle, each behind the other's follower, have no time.
 */
export function plannedTimes(shop: Shop): StepTimes {
  const before = stepsBefore(shop.lanes);
  let times = walked(shop, before, new Map());
  let moved: readonly string[] = [];
  for (let round = 0; round <= before.size; round += 1) {
    const next = walked(shop, before, times);
    moved = movedSince(times, next);
    if (moved.length === 0) return next;
    times = next;
  }
  return new Map([...times, ...moved.map((id) => [id, never] as const)]);
}

/** The newer times, with each that is as before taken from the former ones: its card is not drawn anew. */
export function keepTimes(former: StepTimes | null, times: StepTimes): StepTimes {
  return new Map([...times].map(([id, time]) => [id, keepEqual(former?.get(id), time)]));
}

function walked(shop: Shop, before: ReadonlyMap<string, string>, known: StepTimes): StepTimes {
  const times = new Map<string, PlannedTime>();
  for (const { cellId, steps } of shop.lanes) {
    const answer = queueTimes({
      fromMin: shop.nowMin,
      windows: shop.windows.get(cellId) ?? [],
      steps: steps.map((step) => ({ workMin: restMin(step), ...earliest(step, before, known) })),
    });
    if (!answer.ok) throw new Error(`${answer.refusal.argument}: ${answer.refusal.allowed}`);
    steps.forEach(({ id }, at) => times.set(id, answer.times[at] ?? never));
  }
  return times;
}

const never: PlannedTime = { startMin: null, finishMin: null };
/** Past every window: what waits for a step that is not finished in sight does not start in sight. */
const beyondMin = 1e9;

function earliest(step: Queued, before: ReadonlyMap<string, string>, known: StepTimes) {
  const former = before.get(step.id);
  const time = former === undefined ? undefined : known.get(former);
  return time === undefined ? {} : { notBeforeMin: time.finishMin ?? beyondMin };
}

/** For each step the id of the step of its job that comes right before it and is still on the board. */
function stepsBefore(lanes: readonly Queue[]): Map<string, string> {
  const all = lanes
    .flatMap(({ steps }) => steps)
    .toSorted((a, b) => a.jobId.localeCompare(b.jobId) || a.stepNumber - b.stepNumber);
  return new Map(
    all.flatMap((step, at) => {
      const former = all[at - 1];
      return former?.jobId === step.jobId ? [[step.id, former.id] as const] : [];
    }),
  );
}

function movedSince(former: StepTimes, times: StepTimes): string[] {
  return [...times].flatMap(([id, { startMin, finishMin }]) => {
    const time = former.get(id);
    return time?.startMin === startMin && time.finishMin === finishMin ? [] : [id];
  });
}
