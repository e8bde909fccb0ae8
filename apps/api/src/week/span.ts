import { Temporal } from 'temporal-polyfill';

/** An ISO 8601 week of the shop: Monday to Sunday, with the instants at which it begins and ends. */
export interface WeekSpan {
  readonly from: string;
  readonly to: string;
  readonly label: string;
  readonly start: Date;
  readonly end: Date;
}

/** The week in which a day falls. Weeks and their numbers as in ISO 8601: the first one holds 4 January. */
export function weekOf(day: string, timeZone: string): WeekSpan {
  const date = Temporal.PlainDate.from(day);
  const monday = date.subtract({ days: date.dayOfWeek - 1 });
  const next = monday.add({ days: 7 });
  return {
    from: monday.toString(),
    to: next.subtract({ days: 1 }).toString(),
    label: `${monday.yearOfWeek}-W${String(monday.weekOfYear).padStart(2, '0')}`,
    start: startOf(monday, timeZone),
    end: startOf(next, timeZone),
  };
}

/** The instant at which a day of the shop ends. */
export function endOfDay(day: string, timeZone: string): Date {
  return startOf(Temporal.PlainDate.from(day).add({ days: 1 }), timeZone);
}

function startOf(day: Temporal.PlainDate, timeZone: string): Date {
  return new Date(day.toZonedDateTime(timeZone).epochMilliseconds);
}
