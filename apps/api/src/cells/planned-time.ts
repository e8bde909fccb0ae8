import type { Cell, CellHours } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';

type Calendar = Cell['calendar'];
type Shift = Calendar['shifts'][number];
type DayChange = Calendar['dayChanges'][number];

interface PlannedCalendar {
  readonly shifts: readonly Shift[];
  readonly dayChanges: readonly DayChange[];
}

interface Span {
  readonly startMs: number;
  readonly endMs: number;
  /** Planned minutes per minute of the clock: breaks and downtime thin a shift out evenly. */
  readonly density: number;
  readonly staffed: boolean;
}

const msPerMin = 60_000;
const minPerDay = 1440;
/** Where overtime begins in a shop whose calendar names no shift at all. */
const usualStart = '06:00';
/** A promise further away than this is none. */
const horizonDays = 3660;

/**
 * Minutes a cell is planned to work between two instants, and the part of them with a person at the cell.
 *
 * A shift belongs to the day on which it starts, also where it runs past midnight, and counts the minutes that
 * pass: one hour less or more in the nights when the clock changes. A closed day takes the day's own shifts out.
 * Overtime follows the last shift of its day, with a person; on a day without shifts it begins when the week's
 * earliest shift does. The calendar does not say when a break or downtime falls, so both thin out their shift or
 * day evenly.
 */
export function plannedMinutes({
  shifts,
  dayChanges,
  from,
  to,
  timeZone,
}: PlannedCalendar & {
  readonly from: Date;
  readonly to: Date;
  readonly timeZone: string;
}): { plannedMin: number; staffedMin: number } {
  const startMs = from.getTime();
  const endMs = to.getTime();
  let plannedMin = 0;
  let staffedMin = 0;
  for (const span of spansFrom({ shifts, dayChanges }, from, timeZone)) {
    if (span.startMs >= endMs) break;
    const clockMs = Math.min(span.endMs, endMs) - Math.max(span.startMs, startMs);
    const minutes = (Math.max(0, clockMs) / msPerMin) * span.density;
    plannedMin += minutes;
    if (span.staffed) staffedMin += minutes;
  }
  return { plannedMin, staffedMin };
}

/**
 * The instant at which `minutes` of planned time have passed since `from`; null where the calendar has not that
 * many hours left in the next ten years.
 */
export function addWorkingMinutes(
  calendar: PlannedCalendar,
  from: Date,
  minutes: number,
  timeZone: string,
): Date | null {
  if (minutes <= 0) return from;
  const fromMs = from.getTime();
  let leftMin = minutes;
  for (const span of spansFrom(calendar, from, timeZone)) {
    const startMs = Math.max(span.startMs, fromMs);
    const spanMin = (Math.max(0, span.endMs - startMs) / msPerMin) * span.density;
    if (spanMin >= leftMin) return new Date(startMs + (leftMin / span.density) * msPerMin);
    leftMin -= spanMin;
  }
  return null;
}

/**
 * The spans between two instants in which a cell works, in order and cut to both. `share` is planned minutes per
 * minute of the clock, times the planning factor: job minutes per minute of the clock.
 */
export function workingWindows({
  from,
  to,
  timeZone,
  planningFactor,
  ...calendar
}: PlannedCalendar & {
  readonly from: Date;
  readonly to: Date;
  readonly timeZone: string;
  readonly planningFactor: number;
}): CellHours['windows'] {
  const windows: CellHours['windows'] = [];
  for (const { startMs, endMs, density, staffed } of spansFrom(calendar, from, timeZone)) {
    if (startMs >= to.getTime()) break;
    if (endMs <= from.getTime()) continue;
    windows.push({
      from: new Date(Math.max(startMs, from.getTime())).toISOString(),
      to: new Date(Math.min(endMs, to.getTime())).toISOString(),
      share: density * planningFactor,
      staffed,
    });
  }
  return windows;
}

/** Planned spans in order, from the one that may still run at `from`; no two of them overlap. */
function* spansFrom(calendar: PlannedCalendar, from: Date, timeZone: string): Generator<Span> {
  const changes = changesByDay(calendar.dayChanges);
  const today = Temporal.Instant.fromEpochMilliseconds(from.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
  const lastOvertime = lastDayOf(calendar.dayChanges, 'overtime');
  let takenUntilMs = -Infinity;
  // Two days back: overtime may follow a shift that itself ran past midnight.
  for (let offset = -2; offset <= horizonDays; offset += 1) {
    const day = today.add({ days: offset });
    if (calendar.shifts.length === 0 && day.toString() > lastOvertime) return;
    const spans = spansOfDay(day, calendar.shifts, changes.get(day.toString()) ?? [], timeZone);
    for (const span of spans) {
      const startMs = Math.max(span.startMs, takenUntilMs);
      if (startMs >= span.endMs) continue;
      takenUntilMs = span.endMs;
      if (span.density > 0) yield { ...span, startMs };
    }
  }
}

function lastDayOf(changes: readonly DayChange[], kind: DayChange['kind']): string {
  const days = changes.filter((change) => change.kind === kind).map(({ day }) => day);
  return days.toSorted().at(-1) ?? '';
}

function changesByDay(changes: readonly DayChange[]): Map<string, DayChange[]> {
  const byDay = new Map<string, DayChange[]>();
  for (const change of changes) byDay.set(change.day, [...(byDay.get(change.day) ?? []), change]);
  return byDay;
}

function spansOfDay(
  day: Temporal.PlainDate,
  shifts: readonly Shift[],
  changes: readonly DayChange[],
  timeZone: string,
): Span[] {
  const closed = changes.some(({ kind }) => kind === 'closed');
  const own = closed ? [] : shifts.filter(({ weekday }) => weekday === day.dayOfWeek);
  const spans = own
    .map((shift) => spanOfShift(day, shift, timeZone))
    .filter(({ startMs, endMs }) => endMs > startMs)
    .toSorted((a, b) => a.startMs - b.startMs);
  const overtimeMin = Math.min(minutesOf(changes, 'overtime'), minPerDay);
  if (overtimeMin > 0) {
    const startMs = spans.at(-1)?.endMs ?? instantMs(day, earliestStart(shifts), timeZone);
    const endMs = startMs + overtimeMin * msPerMin;
    spans.push({ startMs, endMs, density: 1, staffed: true });
  }
  return thinnedOut(spans, minutesOf(changes, 'down'));
}

function spanOfShift(day: Temporal.PlainDate, shift: Shift, timeZone: string): Span {
  const endDay = shift.endTime < shift.startTime ? day.add({ days: 1 }) : day;
  const startMs = instantMs(day, shift.startTime, timeZone);
  const endMs = instantMs(endDay, shift.endTime, timeZone);
  const clockMin = (endMs - startMs) / msPerMin;
  const density = clockMin > 0 ? Math.max(0, clockMin - shift.breakMin) / clockMin : 0;
  return { startMs, endMs, density, staffed: shift.staffed };
}

/** By clock time, day and zone: the cells of a shop share their shifts, and each screen asks for the same weeks. */
const instants = new Map<string, number>();
/** Some years of a shop with several shifts. */
const instantsMax = 20_000;

function instantMs(day: Temporal.PlainDate, time: string, timeZone: string): number {
  const key = `${time} ${day.toString()} ${timeZone}`;
  const known = instants.get(key);
  if (known !== undefined) return known;
  const ms = day.toZonedDateTime({ timeZone, plainTime: time }).epochMilliseconds;
  if (instants.size >= instantsMax) instants.clear();
  instants.set(key, ms);
  return ms;
}

function minutesOf(changes: readonly DayChange[], kind: DayChange['kind']): number {
  return changes
    .filter((change) => change.kind === kind)
    .reduce((sum, { minutes }) => sum + minutes, 0);
}

function earliestStart(shifts: readonly Shift[]): string {
  return shifts.map(({ startTime }) => startTime).toSorted()[0] ?? usualStart;
}

function thinnedOut(spans: readonly Span[], downMin: number): Span[] {
  const plannedMin = spans.reduce(
    (sum, { startMs, endMs, density }) => sum + ((endMs - startMs) / msPerMin) * density,
    0,
  );
  if (downMin === 0 || plannedMin === 0) return [...spans];
  const left = Math.max(0, plannedMin - downMin) / plannedMin;
  return spans.map((span) => ({ ...span, density: span.density * left }));
}
