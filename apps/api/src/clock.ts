import { Temporal } from 'temporal-polyfill';

export interface Clock {
  now(): Date;
}

export const systemClock: Clock = { now: () => new Date() };

/** The calendar day of the shop on which an instant falls, `YYYY-MM-DD`. */
export function shopDay(at: Date, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}

/** The day that lies so many days of the calendar before another, `YYYY-MM-DD`. */
export function daysBefore(day: string, days: number): string {
  return Temporal.PlainDate.from(day).subtract({ days }).toString();
}
