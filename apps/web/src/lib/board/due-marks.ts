import { dayIn } from '../format/time.js';
import { m } from '../paraglide/messages.js';
import type { Gap } from './calendar-gaps.js';
import { dayStarts } from './day-starts.js';
import { instantOf } from './lane-times.js';
import { dayOfYear } from './time-words.js';

/** The jobs of one lane that are due on one day, those that are late apart from those in time. */
export interface DueMark {
  readonly day: string;
  /** The end of that day, or the begin of the span where it is past. */
  readonly atMin: number;
  readonly late: boolean;
  readonly jobs: readonly number[];
}

interface DueStep {
  readonly jobNumber: number;
  readonly dueOn: string;
  readonly late: boolean;
}

/** A mark for each due day within a span, in the order of the days; what is due after the span has none. */
export function dueMarks(steps: readonly DueStep[], span: Gap, timeZone: string): DueMark[] {
  const ends = new Map(
    dayStarts(span, timeZone).map((start) => [dayIn(instantOf(start - 1), timeZone), start]),
  );
  const today = dayIn(instantOf(span.startMin), timeZone);
  const marks = new Map<string, DueMark>();
  for (const { jobNumber, dueOn, late } of steps) {
    const atMin = dueOn < today ? span.startMin : ends.get(dueOn);
    if (atMin === undefined) continue;
    const key = `${dueOn} ${late}`;
    const jobs = new Set([...(marks.get(key)?.jobs ?? []), jobNumber]);
    marks.set(key, { day: dueOn, atMin, late, jobs: [...jobs] });
  }
  return [...marks.values()].toSorted(
    (a, b) => a.day.localeCompare(b.day) || Number(b.late) - Number(a.late),
  );
}

/** What a mark says: the day, the jobs, and whether they will be late. */
export function dueWords({ day, jobs, late }: DueMark): string {
  const words = { day: dayOfYear(day), jobs: jobs.join(', ') };
  return late ? m.board_due_mark_late(words) : m.board_due_mark(words);
}
