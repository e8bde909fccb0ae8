import { arcLengthMm, cycleTime, fromPastRuns, type RunWeld } from '@tackboard/calc';
import type { PlannedTime } from '@tackboard/contract';
import { realMinPerPart, type PastRun } from './planning.js';

/** How many runs of a step it takes before its measured time stands in for the estimate. */
const runsForMeasuredTime = 3;
const secondsPerMin = 60;

export interface StepTimes {
  readonly setUpMin: number;
  readonly firstPieceMin: number;
  readonly unitMin: number;
  readonly cellKind: 'booth' | 'robot';
  readonly startStopS: number;
  readonly airMovesS: number;
  readonly cleaningS: number;
  readonly loadS: number;
  readonly welds: readonly (RunWeld & { readonly count: number })[];
  readonly setUps: readonly {
    readonly cellId: string;
    readonly travelMmMin: number | null;
    readonly wireSpeedMMin: number | null;
    readonly wireDiameterMm: number | null;
  }[];
}

interface Batch {
  readonly quantity: number;
  readonly past: readonly PastRun[];
  readonly cell: { readonly id: string; readonly stations: number };
}

/**
 * Minutes of one batch at a step: set-up + first piece + quantity x minutes per part. The part's own runs come
 * first, from three on; else the sum of arc, air, cleaning and load times; else the typed estimate.
 */
export function plannedTimeOf(step: StepTimes, { quantity, ...known }: Batch): PlannedTime {
  const { unitMin, basis, runs, band } = unitTimeOf(step, known);
  const batchMin = (min: number) =>
    Math.round((step.setUpMin + step.firstPieceMin + quantity * min) * 10) / 10;
  return {
    ...{ plannedMin: batchMin(unitMin), basis, runs },
    lowMin: band && batchMin(band.lowMin),
    highMin: band && batchMin(band.highMin),
  };
}

interface UnitTime {
  readonly unitMin: number;
  readonly basis: PlannedTime['basis'];
  readonly runs: number;
  readonly band: { readonly lowMin: number; readonly highMin: number } | null;
}

/** Minutes per part, and what they rest on. */
export function unitTimeOf(
  step: StepTimes,
  { past, cell }: Pick<Batch, 'past' | 'cell'>,
): UnitTime {
  const measured = past.map(realMinPerPart).filter((min) => min !== null);
  const runs = measured.length;
  const history = runs < runsForMeasuredTime ? null : fromPastRuns({ unitMin: measured });
  if (history?.ok) {
    return { unitMin: history.value, basis: 'history', runs, band: history.parts.band };
  }
  const cycleMin = calculatedUnitMin(step, cell);
  return cycleMin === null
    ? { unitMin: step.unitMin, basis: 'typed', runs, band: null }
    : { unitMin: cycleMin, basis: 'calculation', runs, band: null };
}

/** At a robot only, and only where every part of the cycle is on file: a missing one would promise too much. */
function calculatedUnitMin(step: StepTimes, cell: Batch['cell']): number | null {
  const cycle = step.cellKind === 'robot' ? cycleOf(step, cell) : null;
  return cycle && cycle.value / secondsPerMin;
}

/** How far the arc goes for all of these welds of one part; null where it cannot be said of one of them. */
export function arcLengthOf(
  welds: StepTimes['welds'],
  setUp: Parameters<typeof arcLengthMm>[1],
): number | null {
  return welds.reduce<number | null>((sum, weld) => {
    const one = arcLengthMm(weld, setUp);
    return sum === null || one === null ? null : sum + one * weld.count;
  }, 0);
}

/** The cycle of one part at a cell; null where its kept settings or one of the times is not on file. */
export function cycleOf(step: StepTimes, cell: Batch['cell']) {
  const setUp = step.setUps.find(({ cellId }) => cellId === cell.id);
  const travelMmMin = setUp?.travelMmMin ?? null;
  const { startStopS, airMovesS, cleaningS, loadS, welds } = step;
  if (travelMmMin === null || airMovesS === 0 || loadS === 0 || welds.length === 0) return null;
  const arcs = welds.flatMap((weld) => {
    const lengthMm = arcLengthMm(weld, setUp);
    return lengthMm === null ? [] : [{ lengthMm, count: weld.count, travelMmMin }];
  });
  if (arcs.length < welds.length) return null;
  const cycle = cycleTime({
    welds: arcs,
    ...{ startStopS, airMovesS, cleaningS, loadS },
    stations: cell.stations === 2 ? 2 : 1,
  });
  return cycle.ok ? cycle : null;
}
