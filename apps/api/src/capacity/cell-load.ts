import { askedByPeriod, loadByPeriod, type PeriodAsked, type Refused } from '@tackboard/calc';
import type { CellLoad, QueuedStep, WeekLoad } from '@tackboard/contract';
import type { WalkLane, WalkTimes } from '../orders/queue-walk.js';
import type { WeekSpan } from '../week/span.js';

const minPerHour = 60;
const msPerMin = 60_000;
/** So many jobs are named; a longer list is not read. */
const jobsNamed = 6;

interface LaneFacts {
  readonly cell: Pick<CellLoad, 'cellId' | 'cellCode' | 'cellName'>;
  readonly lane: WalkLane;
  readonly times: WalkTimes;
  readonly steps: ReadonlyMap<string, Pick<QueuedStep, 'weldBy' | 'jobNumber'>>;
  readonly weeks: readonly WeekSpan[];
  readonly fromMin: number;
}

/** What the queue of a cell fills of its weeks, and what the due dates ask of them. */
export function loadOfCell(facts: LaneFacts): CellLoad {
  const { cell, lane, weeks } = facts;
  const load = loadByPeriod({
    ...{ fromMin: facts.fromMin, windows: lane.windows, edgesMin: edgesOf(weeks) },
    steps: lane.steps.map(({ id, workMin }) => {
      const startMin = facts.times.get(id)?.startMin ?? null;
      return { workMin, ...(startMin === null ? {} : { notBeforeMin: startMin }) };
    }),
  });
  if (!load.ok) throw impossible(load);
  const asked = askedByPeriod({
    openMin: load.periods.map(({ openMin }) => openMin),
    work: lane.steps.map(({ id, workMin }) => ({
      workMin,
      dueIn: dueWeek(weeks, facts.steps.get(id)?.weldBy ?? ''),
    })),
  });
  if (!asked.ok) throw impossible(asked);
  const numbers = lane.steps.map(({ id }) => facts.steps.get(id)?.jobNumber ?? 0);
  return {
    ...cell,
    laterMin: load.elsewhereMin,
    weeks: asked.periods.map((period, at): WeekLoad => {
      const { openMin = 0, loadMin = 0 } = load.periods[at] ?? {};
      const { from = '', label = '' } = weeks[at] ?? {};
      const state = stateOf(period);
      const { dueMin, carriedMin, overMin, share } = period;
      const jobs = [...new Set(period.over.map((each) => numbers[each] ?? 0))];
      const words = wordsOf({ state, jobs, code: cell.cellCode, label, openMin, period });
      return {
        ...{ from, label, openMin, queuedMin: loadMin },
        ...{ dueMin, carriedMin, overMin, share, state, words },
      };
    }),
  };
}

function edgesOf(weeks: readonly WeekSpan[]): number[] {
  const starts = weeks.map(({ start }) => start.getTime() / msPerMin);
  return [...starts, ...weeks.slice(-1).map(({ end }) => end.getTime() / msPerMin)];
}

/** The week in which a day falls; what is overdue is asked of the first, what comes later of none. */
function dueWeek(weeks: readonly WeekSpan[], day: string): number {
  const at = weeks.findIndex(({ to }) => day <= to);
  return at === -1 ? weeks.length : at;
}

function stateOf({ share, overMin, dueMin, carriedMin }: PeriodAsked): WeekLoad['state'] {
  if (share === null) return dueMin + carriedMin > 0 ? 'noHours' : 'closed';
  return overMin > 0 ? 'over' : 'within';
}

function wordsOf(week: {
  readonly state: WeekLoad['state'];
  readonly jobs: readonly number[];
  readonly code: string;
  readonly label: string;
  readonly openMin: number;
  readonly period: PeriodAsked;
}): string | null {
  const { state, code, label, openMin, period } = week;
  const asked = hours(period.dueMin + period.carriedMin);
  if (state === 'noHours') {
    return `${code} has no hours in ${label}, and ${asked} of work are due: ${jobWords(week.jobs)}.`;
  }
  if (state !== 'over' || period.share === null) return null;
  // Rounded up: what is over never reads as 100 %.
  const percent = Math.ceil(period.share * 100);
  return `${code} is asked for ${percent} % in ${label}: ${asked} of work for ${hours(openMin)}. ${hours(period.overMin)} too much with ${jobWords(week.jobs)}.`;
}

function jobWords(jobs: readonly number[]): string {
  const named = jobs.slice(0, jobsNamed).join(', ');
  const more = jobs.length > jobsNamed ? ` and ${jobs.length - jobsNamed} more` : '';
  return `${jobs.length === 1 ? 'job' : 'jobs'} ${named}${more}`;
}

function hours(minutes: number): string {
  return `${(minutes / minPerHour).toFixed(1)} h`;
}

function impossible({ refusal }: Refused): Error {
  return new Error(
    `${refusal.argument} is ${String(refusal.given)}; allowed is ${refusal.allowed}.`,
  );
}
