import type { Cell } from '@tackboard/contract';

type Calendar = Cell['calendar'];

export interface ShiftDraft {
  readonly key: number;
  weekday: string;
  startTime: string;
  endTime: string;
  breakMin: number | null;
  staffed: boolean;
}

export interface DayDraft {
  readonly key: number;
  day: string | null;
  kind: Calendar['dayChanges'][number]['kind'];
  minutes: number | null;
  reason: string;
}

/** Net minutes of a shift; one that ends before it starts runs past midnight. Null for times not yet readable. */
export function netShiftMin({
  startTime,
  endTime,
  breakMin,
}: Pick<ShiftDraft, 'startTime' | 'endTime' | 'breakMin'>): number | null {
  const start = minuteOfDay(startTime);
  const end = minuteOfDay(endTime);
  if (start === null || end === null) return null;
  const gross = end > start ? end - start : end + 24 * 60 - start;
  return gross - (breakMin ?? 0);
}

/** Planned minutes of an ordinary week, the sum of all readable shifts. */
export function weekMin(shifts: readonly ShiftDraft[]): number {
  return shifts.reduce((sum, shift) => sum + (netShiftMin(shift) ?? 0), 0);
}

/** "7", "7:30" or "730" as typed at the keyboard becomes "07:00", "07:30"; anything else stays as typed. */
export function timeAsTyped(typed: string): string {
  const found = /^(\d{1,2})(?:[:.]?(\d{2}))?$/.exec(typed.trim());
  if (!found) return typed.trim();
  return `${(found[1] ?? '').padStart(2, '0')}:${found[2] ?? '00'}`;
}

function minuteOfDay(time: string): number | null {
  const found = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(timeAsTyped(time));
  return found ? Number(found[1]) * 60 + Number(found[2]) : null;
}

export function shiftDrafts(calendar: Calendar): ShiftDraft[] {
  return calendar.shifts.map((shift, key) => ({ ...shift, key, weekday: String(shift.weekday) }));
}

export function dayDrafts(calendar: Calendar): DayDraft[] {
  return calendar.dayChanges.map((change, key) => ({ ...change, key }));
}

/** What is sent for the drafts, or null while a day is missing. */
export function calendarOf(
  shifts: readonly ShiftDraft[],
  days: readonly DayDraft[],
): Calendar | null {
  const dayChanges: Calendar['dayChanges'] = [];
  for (const { day, kind, minutes, reason } of days) {
    if (day === null) return null;
    dayChanges.push({ day, kind, minutes: minutes ?? 0, reason });
  }
  return {
    shifts: shifts.map(({ weekday, startTime, endTime, breakMin, staffed }) => ({
      weekday: Number(weekday),
      startTime: timeAsTyped(startTime),
      endTime: timeAsTyped(endTime),
      breakMin: breakMin ?? 0,
      staffed,
    })),
    dayChanges,
  };
}
