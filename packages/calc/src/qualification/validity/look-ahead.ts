import { daysBetween, isDay, type DayText } from './dates.js';

/** Something that lapses: a certificate, its confirmation, an instrument. */
export interface Lapsing {
  id: string;
  /** Last day it holds; null runs on. */
  lastDay: DayText | null;
}

/** A queued job with what it rests on: of each need any one of the named things will do. */
export interface RestingJob {
  id: string;
  plannedOn: DayText;
  needs: readonly (readonly string[])[];
}

/** Lapsed already, or within so many days. */
export type Horizon = 'lapsed' | 30 | 60 | 90;

export interface Lapse {
  id: string;
  lastDay: DayText;
  /** Days left, 0 on the last one; negative once lapsed. */
  daysLeft: number;
  within: Horizon;
  /** Jobs planned after the last day that nothing else would carry then. */
  stops: readonly string[];
}

const horizons = [30, 60, 90] as const;

function horizonOf(daysLeft: number): Horizon | null {
  if (daysLeft < 0) return 'lapsed';
  return horizons.find((days) => daysLeft <= days) ?? null;
}

/**
 * What lapses within 90, 60 and 30 days of a day, soonest first, and the queued jobs each lapse would stop. An item
 * whose last day is no calendar day is named in `unreadable` and never taken as holding.
 */
export function lookAhead(facts: {
  day: DayText;
  items: readonly Lapsing[];
  jobs: readonly RestingJob[];
}): { lapses: Lapse[]; unreadable: string[] } {
  const { day, items, jobs } = facts;
  const isReadable = ({ lastDay }: Lapsing) => lastDay === null || isDay(lastDay);
  const byId = new Map(items.filter(isReadable).map(({ id, lastDay }) => [id, lastDay]));
  const holdsOn = (id: string, on: DayText) => {
    const lastDay = byId.get(id);
    return lastDay === null || (lastDay !== undefined && lastDay >= on);
  };
  const stoppedBy = (id: string) =>
    jobs
      .filter(({ plannedOn, needs }) =>
        needs.some(
          (anyOf) => anyOf.includes(id) && !anyOf.some((each) => holdsOn(each, plannedOn)),
        ),
      )
      .map((job) => job.id);
  const lapses = items.flatMap(({ id, lastDay }): Lapse[] => {
    const daysLeft = lastDay === null ? null : daysBetween(day, lastDay);
    const within = daysLeft === null ? null : horizonOf(daysLeft);
    if (lastDay === null || daysLeft === null || within === null) return [];
    return [{ id, lastDay, daysLeft, within, stops: stoppedBy(id) }];
  });
  return {
    lapses: lapses.toSorted((a, b) => a.daysLeft - b.daysLeft || a.id.localeCompare(b.id)),
    unreadable: items.filter((item) => !isReadable(item)).map(({ id }) => id),
  };
}
