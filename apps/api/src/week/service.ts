import type { Week } from '@tackboard/contract';
import { z } from 'zod';
import { plannedMinutes } from '../cells/planned-time.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { median } from '../orders/line-questions.js';
import { measureCell } from './measure.js';
import { endOfDay, weekOf, type WeekSpan } from './span.js';
import { weekReader } from './store.js';
import { weekTable } from './table.js';

export type WeekService = ReturnType<typeof createWeekService>;

const EntryTime = z.object({ entryMs: z.number() });

/** The figures of a week: arc time with its denominators, lost hours by cause, jobs on time. */
export function createWeekService({ database, shared, clock, timeZone }: Foundation) {
  const read = weekReader(database.reader);

  const week = async (day: string | undefined) =>
    shared(`week ${day ?? ''}`, async () => readWeek(day));

  async function readWeek(day: string | undefined): Promise<Week> {
    const now = clock.now();
    const span = weekOf(day ?? shopDay(now, timeZone), timeZone);
    const complete = span.end <= now;
    // A week that still runs is measured up to now: hours that have not come yet are not lost.
    const end = complete ? span.end : new Date(Math.max(now.getTime(), span.start.getTime()));
    const window = { start: span.start, end };
    return {
      ...{ from: span.from, to: span.to, label: span.label, complete },
      cells: await cellWeeks(span, window),
      ...(await jobFigures(span, end)),
      entryMedianS: await entryMedianS(window),
    };
  }

  async function cellWeeks(span: WeekSpan, window: { start: Date; end: Date }) {
    const cells = await read.cells(span);
    const runs = await read.runs(window);
    return cells
      .filter(({ id, active }) => active || runs.has(id))
      .map(({ id, code, name, calendar }) => ({
        ...{ cellId: id, cellCode: code, cellName: name },
        ...measureCell({
          ...plannedMinutes({ ...calendar, from: window.start, to: window.end, timeZone }),
          runs: runs.get(id) ?? [],
          window,
        }),
      }));
  }

  async function jobFigures(span: WeekSpan, end: Date) {
    // Due on the last day of the window is not late yet on that day.
    const lastDay = shopDay(new Date(end.getTime() - 1), timeZone);
    const dueBefore = end < span.end ? lastDay : dayAfter(span.to);
    const jobs = await read.jobs({ since: span.start, dueBefore });
    const done = jobs.filter(({ finishedAt }) => finishedAt !== null && finishedAt < end);
    const late = jobs.filter(
      ({ finishedAt, dueOn, createdAt }) =>
        (finishedAt === null || finishedAt >= end) && dueOn < dueBefore && createdAt < end,
    );
    const dueUntil = new Map(
      [...new Set(done.map(({ dueOn }) => dueOn))].map((day) => [day, endOfDay(day, timeZone)]),
    );
    const onTime = done.filter(({ finishedAt, dueOn }) => {
      const until = dueUntil.get(dueOn);
      return finishedAt !== null && until !== undefined && finishedAt < until;
    });
    return { lateJobs: late.length, doneJobs: done.length, onTimeJobs: onTime.length };
  }

  async function entryMedianS(window: { start: Date; end: Date }): Promise<number | null> {
    const times = (await read.ordersTaken(window)).flatMap((after) => {
      const entry = EntryTime.safeParse(after);
      return entry.success ? [entry.data.entryMs] : [];
    });
    const middle = median(times);
    return middle === null ? null : middle / 1000;
  }

  return {
    week,
    /** The same figures as a table of text, units in the header. */
    async csv(day: string | undefined): Promise<{ fileName: string; text: string }> {
      const figures = await week(day);
      return { fileName: `week-${figures.label}.csv`, text: weekTable(figures) };
    },
  };
}

function dayAfter(day: string): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}
