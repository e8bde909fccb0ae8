import type { PlannedTime } from '@tackboard/calc';
import type { CellHours, OpenOfJob } from '@tackboard/contract';
import { clock, dayIn, duration } from '../format/time.js';
import { m } from '../paraglide/messages.js';
import { dateFormat } from '../ui/date-format.js';
import { dayInWords, daysBetween } from '../ui/day-text.js';
import type { Gap } from './calendar-gaps.js';
import { instantOf } from './lane-times.js';

/** Cards live for weeks, not years: the year would only push the words behind it to the next line. */
export function dayOfYear(day: string): string {
  return dayInWords(day).replace(/ \d{4}$/, '');
}

export interface Here {
  readonly nowMin: number;
  readonly timeZone: string;
}

const weekMin = 6 * 24 * 60;

/** Weekday and time, "Tue 06:00"; with the date once the weekday alone could mean another week. */
export function weekdayAndClock(minute: number, { nowMin, timeZone }: Here): string {
  const at = instantOf(minute);
  const day = dayOfYear(dayIn(at, timeZone));
  return `${minute - nowMin < weekMin ? day.slice(0, 3) : `${day},`} ${clock(at, timeZone)}`;
}

/** When a step is planned, in words. `held` is in work already, so that only its end is ahead. */
export function plannedWords(
  { startMin, finishMin }: PlannedTime,
  held: boolean,
  here: Here,
): string {
  if (startMin === null) return m.board_start_unknown();
  const start = weekdayAndClock(startMin, here);
  if (finishMin === null) return m.board_finish_unknown({ start });
  if (held) return m.board_planned_until({ finish: weekdayAndClock(finishMin, here) });
  const sameDay = dayAt(startMin, here) === dayAt(finishMin, here);
  const finish = sameDay
    ? clock(instantOf(finishMin), here.timeZone)
    : weekdayAndClock(finishMin, here);
  return m.board_planned({ start, finish });
}

/** Whether a step is planned to be finished on a day after the one it is due. */
export function afterDue(time: PlannedTime | undefined, dueOn: string, here: Here): boolean {
  return typeof time?.finishMin === 'number' && dayAt(time.finishMin, here) > dueOn;
}

/** What a job lacks in a few words: "2 open until Thursday", with the date where the weekday alone could mislead. */
export function openWords({ open, until, overdue }: Omit<OpenOfJob, 'jobId'>, here: Here): string {
  if (overdue > 0) return m.board_open_overdue({ open, overdue });
  const today = dayAt(here.nowMin, here);
  if (until === today) return m.board_open_today({ open });
  const near = daysBetween(today, until) < 7;
  const weekday = dateFormat('en-GB', { weekday: 'long', timeZone: 'UTC' });
  const day = near ? weekday.format(new Date(`${until}T00:00:00Z`)) : dayOfYear(until);
  return m.board_open_until({ open, day });
}

type Loss = CellHours['losses'][number];

/** Why a cell does not work, and until when: the reason from the calendar, or that there is no shift. */
export function gapWords(gap: Gap, losses: readonly Loss[], here: Here): string {
  const until = weekdayAndClock(gap.endMin, here);
  const [from, to] = [dayAt(gap.startMin, here), dayAt(gap.endMin - 1, here)];
  const why = losses.filter(({ day }) => day >= from && day <= to).map(({ reason }) => reason);
  return why.length === 0
    ? m.board_gap({ until })
    : m.board_gap_why({ why: [...new Set(why)].join(', '), until });
}

/** Downtime without hours of its own, which thins its day out. */
export function downWords({ day, minutes, reason }: Loss): string {
  return m.board_down({ day: dayOfYear(day), minutes: duration(minutes), reason });
}

function dayAt(minute: number, { timeZone }: Here): string {
  return dayIn(instantOf(minute), timeZone);
}
