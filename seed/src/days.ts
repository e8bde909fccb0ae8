import { Temporal } from 'temporal-polyfill';

/** Calendar arithmetic of the shop while its past is being written. */
export function createDays(timeZone: string, now: Date) {
  const today = Temporal.Instant.fromEpochMilliseconds(now.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
  return {
    today: today.toString(),
    plus: (day: string, days: number) => Temporal.PlainDate.from(day).add({ days }).toString(),
    weekday: (day: string) => Temporal.PlainDate.from(day).dayOfWeek,
    /** The Monday `weeks` weeks before the current week. */
    mondayBefore: (weeks: number) =>
      today.subtract({ days: today.dayOfWeek - 1 + weeks * 7 }).toString(),
    /** An instant of that day in the shop's wall time, `minutes` after midnight. */
    at: (day: string, minutes: number) =>
      new Date(
        Temporal.PlainDate.from(day)
          .toZonedDateTime({ timeZone, plainTime: '00:00' })
          .add({ seconds: Math.round(minutes * 60) }).epochMilliseconds,
      ),
  };
}

export type Days = ReturnType<typeof createDays>;
