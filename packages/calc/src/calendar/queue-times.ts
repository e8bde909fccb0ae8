import { bounds, firstRefusal, type Bound } from '../quantities.js';
import { refused, type ArgumentRefusal, type Refused } from '../result.js';
import type { SourceId } from '../sources/index.js';

/** A span in which a cell works. Its ends are whole or broken minutes since 1970-01-01T00:00Z. */
export interface WorkingWindow {
  readonly startMin: number;
  readonly endMin: number;
  /** Minutes of work done per minute of the clock, above 0 up to 1: breaks and downtime thin a window out. */
  readonly share: number;
}

export interface QueuedWork {
  readonly workMin: number;
  /** Does not start before this minute: another cell has the step before. */
  readonly notBeforeMin?: number;
}

/** In minutes since 1970-01-01T00:00Z; null where the windows end before. */
export interface PlannedTime {
  readonly startMin: number | null;
  readonly finishMin: number | null;
}

interface QueueInputs {
  readonly fromMin: number;
  readonly windows: readonly WorkingWindow[];
  readonly steps: readonly QueuedWork[];
}

type QueueTimes =
  | {
      readonly ok: true;
      /** One for each step, in the order of the queue. */
      readonly times: readonly PlannedTime[];
      readonly sources: readonly SourceId[];
    }
  | Refused;

/** Some 1900 years either side of 1970. */
const epochMin: Bound = { min: -1e9, max: 1e9, unit: 'min' };
const windowShare: Bound = { min: 1e-6, max: 1, unit: '' };

/**
 * When each step of a queue starts and finishes, worked one after the other through the working time of its cell.
 * The order is kept: where a step has to wait for another cell, the steps behind it wait too, so that work added
 * anywhere never makes anything earlier. Every start and finish lies within a window. Refuses windows that
 * overlap or are out of order. Source: definition.
 */
export function queueTimes({ fromMin, windows, steps }: QueueInputs): QueueTimes {
  const refusal = refusalOf({ fromMin, windows, steps });
  if (refusal) return refused(refusal);
  const times: PlannedTime[] = [];
  let at: Place | null = { windowAt: 0, atMin: fromMin };
  for (const { workMin, notBeforeMin } of steps) {
    const start: Place | null = at && placeFrom(windows, at, notBeforeMin ?? at.atMin);
    at = start && workedOff(windows, start, workMin);
    times.push({ startMin: start?.atMin ?? null, finishMin: at?.atMin ?? null });
  }
  return { ok: true, times, sources: ['calendarWalk'] };
}

interface Place {
  readonly windowAt: number;
  readonly atMin: number;
}

/** The first minute of working time at or after both the place reached and `earliestMin`; null past the last. */
function placeFrom(
  windows: readonly WorkingWindow[],
  { windowAt, atMin }: Place,
  earliestMin: number,
): Place | null {
  const fromMin = Math.max(atMin, earliestMin);
  for (let at = windowAt; at < windows.length; at += 1) {
    const { startMin, endMin } = windows[at]!;
    if (endMin > fromMin) return { windowAt: at, atMin: Math.max(startMin, fromMin) };
  }
  return null;
}

function workedOff(windows: readonly WorkingWindow[], start: Place, workMin: number): Place | null {
  let leftMin = workMin;
  for (let at = start.windowAt; at < windows.length; at += 1) {
    const { startMin, endMin, share } = windows[at]!;
    const fromMin = Math.max(startMin, start.atMin);
    const roomMin = (endMin - fromMin) * share;
    if (leftMin <= roomMin)
      return { windowAt: at, atMin: Math.min(endMin, fromMin + leftMin / share) };
    leftMin -= roomMin;
  }
  return null;
}

function refusalOf({ fromMin, windows, steps }: QueueInputs): ArgumentRefusal | null {
  return (
    firstRefusal([
      ['fromMin', fromMin, epochMin],
      ...windows.flatMap(({ startMin, endMin, share }, at) => [
        [`windows.${at}.startMin`, startMin, epochMin] as const,
        [`windows.${at}.endMin`, endMin, epochMin] as const,
        [`windows.${at}.share`, share, windowShare] as const,
      ]),
      ...steps.flatMap(({ workMin, notBeforeMin }, at) => [
        [`steps.${at}.workMin`, workMin, bounds.durationMin] as const,
        [`steps.${at}.notBeforeMin`, notBeforeMin ?? 0, epochMin] as const,
      ]),
    ]) ?? disorder(windows)
  );
}

function disorder(windows: readonly WorkingWindow[]): ArgumentRefusal | null {
  const at = windows.findIndex(
    ({ startMin, endMin }, each) =>
      endMin <= startMin || startMin < (windows[each - 1]?.endMin ?? -Infinity),
  );
  const given = windows[at];
  if (given === undefined) return null;
  const allowed =
    'windows that end after they start and begin at or after the end of the one before';
  return { argument: `windows.${at}`, given, allowed };
}
