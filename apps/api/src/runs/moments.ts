import { Temporal } from 'temporal-polyfill';

/** A clock at the cell that is further ahead than this is named in the event. */
const clockToleranceMs = 120_000;

export interface Moment {
  /** What is stored as the time of the act. */
  readonly at: Date;
  /** Seconds by which the cell's clock runs ahead; null while it is within two minutes. */
  readonly clockAheadS: number | null;
}

/**
 * When something happened: as the cell says, but neither before the run began nor after now. A cell that says a
 * later time has a wrong clock: the server's time is taken and the difference is told.
 */
export function momentOf(facts: { happenedAt: string | null; now: Date; notBefore: Date }): Moment {
  const { now, notBefore } = facts;
  const said = facts.happenedAt === null ? now : new Date(facts.happenedAt);
  const aheadMs = said.getTime() - now.getTime();
  const clockAheadS = aheadMs > clockToleranceMs ? Math.round(aheadMs / 1000) : null;
  if (said > now) return { at: now, clockAheadS };
  return { at: said < notBefore ? notBefore : said, clockAheadS };
}

/** `10:42:07` on the wall of the shop. */
export function clockWords(at: Date | string, timeZone: string): string {
  return Temporal.Instant.from(typeof at === 'string' ? at : at.toISOString())
    .toZonedDateTimeISO(timeZone)
    .toPlainTime()
    .toString({ smallestUnit: 'second' });
}
