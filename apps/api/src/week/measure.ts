import { weekMeasures, type WeekInputs } from '@tackboard/calc';
import type { CellWeek, lostCauses, Run } from '@tackboard/contract';

type RecordedCause = Exclude<(typeof lostCauses)[number], 'noWork'>;
type StopCause = Run['stops'][number]['cause'];

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
  const { plannedMin, staffedMin, window } = facts;
  const runs = facts.runs.map((run) => measureRun(run, window));
  const sum = (of: (run: RunMeasures) => number) => runs.reduce((total, run) => total + of(run), 0);
  const arcMin = sum((run) => run.arcMin);
  const runningMin = sum((run) => run.runningMin);
  const lost = lostMinutes(runs, { runningMin, arcMin });
  const measures = weekMeasures({ plannedMin, staffedMin, runningMin, arcMin, lost });
  if (!measures.ok) {
    const { argument, given, allowed } = measures.refusal;
    throw new Error(`The week has ${argument} = ${String(given)}; allowed is ${allowed}.`);
  }
  const { plannedH, staffedH, runningH, arcH, ofPlanned, ofStaffed, ofRunning } = measures;
  const ofSource = (source: Run['arcSource']) =>
    sum((run) => (run.arcSource === source ? run.arcMin : 0)) / minPerHour;
  return {
    ...{ plannedH, staffedH, runningH, arcH, ofPlanned, ofStaffed, ofRunning },
    lostH: measures.lostH,
    overtimeH: measures.overtimeH,
    goodCount: sum((run) => run.good),
    reworkCount: sum((run) => run.rework),
    scrapCount: sum((run) => run.scrap),
    runCount: runs.length,
    arcSources: {
      countedH: ofSource('counted'),
      typedH: ofSource('typed'),
      counterH: ofSource('counter'),
    },
  };
}

interface RunMeasures {
  readonly runningMin: number;
  readonly arcMin: number;
  readonly arcSource: Run['arcSource'];
  readonly lost: Readonly<Partial<Record<RecordedCause, number>>>;
  readonly good: number;
  readonly rework: number;
  readonly scrap: number;
}

function measureRun(run: WeekRun, window: Window): RunMeasures {
  const end = run.endedAt ?? window.end;
  const insideMin = overlapMin(run.startedAt, end, window);
  const wholeMin = (end.getTime() - run.startedAt.getTime()) / msPerMin;
  const share = wholeMin > 0 ? insideMin / wholeMin : 1;
  const stopMin = (cause: StopCause) =>
    run.stops
      .filter((stop) => stop.cause === cause)
      .reduce((sum, stop) => sum + overlapMin(stop.startedAt, stop.endedAt ?? end, window), 0);
  const parts = partsOf(run, window);
  const counted = run.counts !== null && run.arcSource === 'counted';
  const arcS = counted
    ? (parts.good + parts.rework + parts.scrap) * run.arcSPerPart
    : run.arcS * share;
  return {
    ...parts,
    runningMin: Math.max(0, insideMin - stopMin('break')),
    arcMin: arcS / secondsPerMin,
    arcSource: run.arcSource,
    lost: {
      // Set-up is told once as a stop and once as a figure; the larger of both is the set-up.
      setUp: Math.max(run.setUpMin * share, stopMin('setUp')),
      waitingParts: stopMin('waitingParts'),
      waitingProgram: stopMin('waitingProgram'),
      waitingInspection: stopMin('waitingInspection'),
      waitingPerson: stopMin('waitingPerson'),
      fault: stopMin('fault'),
      rework: stopMin('rework'),
    },
  };
}

function overlapMin(start: Date, end: Date, window: Window): number {
  const from = Math.max(start.getTime(), window.start.getTime());
  const to = Math.min(end.getTime(), window.end.getTime());
  return Math.max(0, to - from) / msPerMin;
}

function partsOf(run: WeekRun, { start, end }: Window) {
  if (run.counts === null) {
    return { good: run.goodCount, rework: run.reworkCount, scrap: run.scrapCount };
  }
  const inside = run.counts.filter(({ happenedAt }) => happenedAt >= start && happenedAt <= end);
  const sum = (of: (count: WeekCount) => number) =>
    inside.reduce((total, count) => total + of(count), 0);
  return {
    good: sum(({ good }) => good),
    rework: sum(({ rework }) => rework),
    scrap: sum(({ scrap }) => scrap),
  };
}

function lostMinutes(
  runs: readonly RunMeasures[],
  { runningMin, arcMin }: { runningMin: number; arcMin: number },
): WeekInputs['lost'] {
  const lost: Partial<Record<RecordedCause, number>> = {};
  for (const run of runs) {
    for (const [cause, minutes] of Object.entries(run.lost) as [RecordedCause, number][]) {
      lost[cause] = (lost[cause] ?? 0) + minutes;
    }
  }
  const named = Object.values(lost).reduce((sum, minutes) => sum + minutes, 0);
  return { ...lost, handling: Math.max(0, runningMin - arcMin - named) };
}
