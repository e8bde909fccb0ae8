import type { Cell, FieldRefusal } from '@tackboard/contract';

type Calendar = Cell['calendar'];
type Shift = Calendar['shifts'][number];

const minPerDay = 1440;
const minPerWeek = 7 * minPerDay;
const weekdays = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;

/** What a calendar cannot mean, one line for each place in the body. */
export function calendarFaults({ shifts, dayChanges }: Calendar): FieldRefusal[] {
  return [
    ...shifts.flatMap((shift, at) => shiftFaults(shift, at)),
    ...overlaps(shifts),
    ...dayChanges.flatMap((change, at) => dayChangeFaults(change, at)),
  ];
}

function shiftFaults(shift: Shift, at: number): FieldRefusal[] {
  if (shift.startTime === shift.endTime) {
    const allowed = `another end than start; ${shiftWords(shift)} would be no time or a whole day: write a whole day as two shifts`;
    return [{ field: `body.shifts.${at}.endTime`, given: shift.endTime, allowed }];
  }
  const lengthMin = lengthOf(shift);
  if (shift.breakMin < lengthMin) return [];
  const allowed = `a break shorter than the shift ${shiftWords(shift)}, which has ${lengthMin} minutes`;
  return [{ field: `body.shifts.${at}.breakMin`, given: String(shift.breakMin), allowed }];
}

/** Over the whole week: a shift past midnight may meet the first one of the next day, Sunday's that of Monday. */
function overlaps(shifts: readonly Shift[]): FieldRefusal[] {
  return shifts.flatMap((shift, at) => {
    const other = shifts.slice(0, at).find((earlier) => overlap(earlier, shift));
    if (other === undefined) return [];
    const allowed = `hours that no other shift has; ${shiftWords(shift)} overlaps ${shiftWords(other)}`;
    return [{ field: `body.shifts.${at}`, given: shiftWords(shift), allowed }];
  });
}

function overlap(one: Shift, other: Shift): boolean {
  const fromOneToOther = (startOf(other) - startOf(one) + minPerWeek) % minPerWeek;
  return fromOneToOther < lengthOf(one) || minPerWeek - fromOneToOther < lengthOf(other);
}

function dayChangeFaults(change: Calendar['dayChanges'][number], at: number): FieldRefusal[] {
  if (change.kind === 'closed') return [];
  if (change.minutes > 0 && change.minutes <= minPerDay) return [];
  const what = change.kind === 'overtime' ? 'overtime' : 'downtime';
  const allowed = `more than 0 and at most ${minPerDay} minutes of ${what} on ${change.day}`;
  return [{ field: `body.dayChanges.${at}.minutes`, given: String(change.minutes), allowed }];
}

function startOf({ weekday, startTime }: Shift): number {
  return (weekday - 1) * minPerDay + minuteOf(startTime);
}

function lengthOf({ startTime, endTime }: Shift): number {
  const minutes = minuteOf(endTime) - minuteOf(startTime);
  return minutes > 0 ? minutes : minutes + minPerDay;
}

function minuteOf(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}

function shiftWords({ weekday, startTime, endTime }: Shift): string {
  return `${weekdays[weekday - 1] ?? weekday} ${startTime}-${endTime}`;
}
