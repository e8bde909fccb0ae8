import type { WorkingWindow } from '@tackboard/calc';
import type { CellHours } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import type { CellsService } from '../cells/service.js';
import type { QueueService } from '../queue/service.js';
import { walkQueues, type WalkLane, type WalkTimes } from './queue-walk.js';

type Lanes = Awaited<ReturnType<QueueService['board']>>['lanes'];
type QueuedStep = Lanes[number]['steps'][number];

const msPerMin = 60_000;
/** How far the calendars are read: further only where the run queues are longer. */
const horizonsDays = [28, 112, 366] as const;
/** What is added has to find room behind what waits today. */
const roomFactor = 2;

/** The run queues of the shop with their hours, and when each queued step is planned to end. */
export interface ShopQueues {
  readonly fromMin: number;
  readonly lanes: readonly WalkLane[];
  readonly times: WalkTimes;
  readonly steps: ReadonlyMap<string, QueuedStep>;
}

export function minuteOf(at: Date | string): number {
  return new Date(at).getTime() / msPerMin;
}

export function instantOf(minute: number | null): string | null {
  return minute === null ? null : new Date(Math.round(minute * msPerMin)).toISOString();
}

/** The minute at which a day of the shop ends. */
export function endOfDay(day: string, timeZone: string): number {
  const next = Temporal.PlainDate.from(day).add({ days: 1 });
  return next.toZonedDateTime({ timeZone, plainTime: '00:00' }).epochMilliseconds / msPerMin;
}

export async function readQueues(
  { cells, queue }: { cells: Pick<CellsService, 'hours'>; queue: Pick<QueueService, 'board'> },
  { now, addedMin = 0, leastDays = 0 }: { now: Date; addedMin?: number; leastDays?: number },
): Promise<ShopQueues> {
  const { lanes: board } = await queue.board();
  const fromMin = minuteOf(now);
  for (const days of horizonsDays.filter((each) => each >= leastDays || each === 366)) {
    const { cells: hours } = await cells.hours({ days });
    const lanes = board.map(({ cellId, steps }) => ({
      cellId,
      windows: windowsOf(hours.find((cell) => cell.cellId === cellId)),
      steps: steps.map((step) => ({ ...step, workMin: restMin(step) })),
    }));
    if (days < 366 && !lanes.every((lane) => hasRoom(lane, addedMin))) continue;
    const steps = new Map(board.flatMap((lane) => lane.steps.map((step) => [step.id, step])));
    return { fromMin, lanes, times: walkQueues(lanes, fromMin), steps };
  }
  throw new Error('The longest horizon always answers.');
}

function windowsOf(hours: CellHours | undefined): WorkingWindow[] {
  return (hours?.windows ?? []).map(({ from, to, share }) => ({
    ...{ startMin: minuteOf(from), endMin: minuteOf(to), share },
  }));
}

function hasRoom({ windows, steps }: WalkLane, addedMin: number): boolean {
  const roomMin = windows.reduce(
    (sum, each) => sum + (each.endMin - each.startMin) * each.share,
    0,
  );
  const workMin = steps.reduce((sum, step) => sum + step.workMin, addedMin);
  return windows.length === 0 || roomMin > roomFactor * workMin;
}

/** What is made does not have to be made again. */
function restMin({ plannedMin, quantity, goodCount }: QueuedStep): number {
  return plannedMin * (Math.max(0, quantity - goodCount) / quantity);
}
