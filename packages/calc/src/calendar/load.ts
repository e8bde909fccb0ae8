import { refused, type Refused } from '../result.js';
import type { SourceId } from '../sources/index.js';
import { queueTimes, type QueuedWork, type WorkingWindow } from './queue-times.js';

/** Load against capacity of one cell in one span; all in minutes of work. */
export interface PeriodLoad {
  readonly startMin: number;
  readonly endMin: number;
  /** Working time from the beginning of the walk on, thinned out by its share. */
  readonly openMin: number;
  /** What the queue fills of it. */
  readonly loadMin: number;
}

interface LoadInputs {
  readonly fromMin: number;
  readonly windows: readonly WorkingWindow[];
  readonly steps: readonly QueuedWork[];
  /** Where one period ends and the next begins, in minutes since 1970-01-01T00:00Z; rising. */
  readonly edgesMin: readonly number[];
}

type Load =
  | {
      readonly ok: true;
      readonly periods: readonly PeriodLoad[];
      /** Work that falls before the first or behind the last period, or finds no working time at all. */
      readonly elsewhereMin: number;
      readonly sources: readonly SourceId[];
    }
  | Refused;

interface Span {
  readonly startMin: number;
  readonly endMin: number;
}

/** Minutes of work that the windows hold within a span. */
function workIn(windows: readonly WorkingWindow[], { startMin, endMin }: Span): number {
  return windows.reduce((sum, window) => {
    const shared = Math.min(window.endMin, endMin) - Math.max(window.startMin, startMin);
    return sum + Math.max(0, shared) * window.share;
  }, 0);
}

/**
 * How far the queue of a cell fills its working time, period by period: each step is walked through the calendar in
 * the order of the queue, and its minutes counted where they fall. Waiting for another cell fills nothing.
 */
export function loadByPeriod({ fromMin, windows, steps, edgesMin }: LoadInputs): Load {
  const falls = edgesMin.findIndex((edge, at) => !(edge > (edgesMin[at - 1] ?? -Infinity)));
  if (falls !== -1) {
    const given = edgesMin[falls];
    return refused({ argument: `edgesMin.${falls}`, given, allowed: 'edges that rise' });
  }
  const walked = queueTimes({ fromMin, windows, steps });
  if (!walked.ok) return walked;
  const lastMin = windows.at(-1)?.endMin ?? fromMin;
  const spans = walked.times.flatMap(({ startMin, finishMin }): Span[] =>
    startMin === null ? [] : [{ startMin, endMin: finishMin ?? lastMin }],
  );
  const periods = edgesMin.slice(1).map((endMin, at): PeriodLoad => {
    const startMin = edgesMin[at] ?? endMin;
    const loadMin = spans.reduce((sum, span) => {
      const within = {
        startMin: Math.max(startMin, span.startMin),
        endMin: Math.min(endMin, span.endMin),
      };
      return sum + workIn(windows, within);
    }, 0);
    const openMin = workIn(windows, { startMin: Math.max(startMin, fromMin), endMin });
    return { startMin, endMin, openMin, loadMin };
  });
  const total = steps.reduce((sum, { workMin }) => sum + workMin, 0);
  const placed = periods.reduce((sum, { loadMin }) => sum + loadMin, 0);
  const elsewhereMin = Math.max(0, total - placed);
  return { ok: true, periods, elsewhereMin, sources: walked.sources };
}
