import { weekMeasures } from '@tackboard/calc';
import type { CellWeek, Run } from '@tackboard/contract';

type StopCause = Run['stops'][number]['cause'];
/** What a cell can name as the cause of a lost hour; a break is no loss. */
type NamedCause = Exclude<StopCause, 'break'>;

const msPerMin = 60_000;
const secondsPerMin = 60;
const minPerHour = 60;

export interface Window {
  readonly start: Date;
  /** The end of the week, or now while it runs. */
  readonly end: Date;
}

export interface WeekRun {
  readonly startedAt: Date;
  /** Null while it is in work. */
  readonly endedAt: Date | null;
  readonly goodCount: number;
  readonly reworkCount: number;
  readonly scrapCount: number;
  readonly setUpMin: number;
  readonly arcS: number;
  readonly arcSPerPart: number;
  readonly arcSource: Run['arcSource'];
  readonly stops: readonly WeekStop[];
  /** Each count by itself, for a run that reaches beyond the week; null where the totals tell all. */
  readonly counts: readonly WeekCount[] | null;
}
export interface WeekStop {
  readonly cause: StopCause;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
}
export interface WeekCount {
  readonly happenedAt: Date;
  readonly good: number;
  readonly rework: number;
  readonly scrap: number;
}

export type CellMeasures = Omit<CellWeek, 'cellId' | 'cellCode' | 'cellName'>;

/**
 * A cell's week: running time is run time without breaks; every hour without an arc goes to the cause that the cell
 * named, to handling while a run went on, or to no work.
 */
export function measureCell(facts: {
  plannedMin: number;
  staffedMin: number;
  runs: readonly WeekRun[];
  window: Window;
}): CellMeasures {
  const { plannedMin, staffedMin, runs, window } = facts;
  const sums = newSums();
  for (const run of runs) addRun(sums, run, window);
  const { runningMin, lostMin, arcMin: arcOf } = sums;
  const arcMin = arcOf.counted + arcOf.typed + arcOf.counter;
  const named = Object.values(lostMin).reduce((sum, minutes) => sum + minutes, 0);
  const lost = { ...lostMin, handling: Math.max(0, runningMin - arcMin - named) };
  const measures = weekMeasures({ plannedMin, staffedMin, runningMin, arcMin, lost });
  if (!measures.ok) {
    const { argument, given, allowed } = measures.refusal;
    throw new Error(`The week has ${argument} = ${String(given)}; allowed is ${allowed}.`);
  }
  const { plannedH, staffedH, runningH, arcH, ofPlanned, ofStaffed, ofRunning } = measures;
  return {
    ...{ plannedH, staffedH, runningH, arcH, ofPlanned, ofStaffed, ofRunning },
    lostH: measures.lostH,
    overtimeH: measures.overtimeH,
    goodCount: sums.good,
    reworkCount: sums.rework,
    scrapCount: sums.scrap,
    runCount: runs.length,
    arcSources: {
      countedH: arcOf.counted / minPerHour,
      typedH: arcOf.typed / minPerHour,
      counterH: arcOf.counter / minPerHour,
    },
  };
}

interface Parts {
  good: number;
  rework: number;
  scrap: number;
}
interface Sums extends Parts {
  runningMin: number;
  readonly arcMin: Record<Run['arcSource'], number>;
  readonly lostMin: Record<NamedCause, number>;
}

function newSums(): Sums {
  return {
    ...{ good: 0, rework: 0, scrap: 0, runningMin: 0 },
    arcMin: { counted: 0, typed: 0, counter: 0 },
    lostMin: {
      ...{ setUp: 0, waitingParts: 0, waitingProgram: 0, waitingInspection: 0 },
      ...{ waitingPerson: 0, fault: 0, rework: 0 },
    },
  };
}

function addRun(sums: Sums, run: WeekRun, window: Window): void {
  const end = run.endedAt ?? window.end;
  const insideMin = overlapMin(run.startedAt, end, window);
  const wholeMin = (end.getTime() - run.startedAt.getTime()) / msPerMin;
  const share = wholeMin > 0 ? insideMin / wholeMin : 1;
  let breakMin = 0;
  let setUpMin = 0;
  for (const { cause, startedAt, endedAt } of run.stops) {
    const minutes = overlapMin(startedAt, endedAt ?? end, window);
    if (cause === 'break') breakMin += minutes;
    else if (cause === 'setUp') setUpMin += minutes;
    else sums.lostMin[cause] += minutes;
  }
  // Set-up is told once as a stop and once as a figure; the larger of both is the set-up.
  sums.lostMin.setUp += Math.max(run.setUpMin * share, setUpMin);
  sums.runningMin += Math.max(0, insideMin - breakMin);
  const parts = partsOf(run, window);
  const counted = run.counts !== null && run.arcSource === 'counted';
  const arcS = counted
    ? (parts.good + parts.rework + parts.scrap) * run.arcSPerPart
    : run.arcS * share;
  sums.arcMin[run.arcSource] += arcS / secondsPerMin;
  sums.good += parts.good;
  sums.rework += parts.rework;
  sums.scrap += parts.scrap;
}

function overlapMin(start: Date, end: Date, window: Window): number {
  const from = Math.max(start.getTime(), window.start.getTime());
  const to = Math.min(end.getTime(), window.end.getTime());
  return Math.max(0, to - from) / msPerMin;
}

function partsOf(run: WeekRun, { start, end }: Window): Parts {
  if (run.counts === null) {
    return { good: run.goodCount, rework: run.reworkCount, scrap: run.scrapCount };
  }
  const parts = { good: 0, rework: 0, scrap: 0 };
  for (const { happenedAt, good, rework, scrap } of run.counts) {
    if (happenedAt < start || happenedAt > end) continue;
    parts.good += good;
    parts.rework += rework;
    parts.scrap += scrap;
  }
  return parts;
}
