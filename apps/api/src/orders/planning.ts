import type { cellKinds } from '@tackboard/contract';
import { median } from './line-questions.js';

export type CellKind = (typeof cellKinds)[number];

/** How many runs of a step it takes before its measured time stands in for the estimate. */
const runsForMeasuredTime = 3;

export interface PastRun {
  readonly startedAt: Date;
  readonly endedAt: Date;
  readonly madeCount: number;
  readonly setUpMin: number;
  readonly stops: readonly {
    readonly cause: string;
    readonly startedAt: Date;
    readonly endedAt: Date | null;
  }[];
}

const msPerMin = 60_000;

/** Working minutes per part of one run: stops and set-up are taken out. Null where nothing was made. */
export function realMinPerPart(run: PastRun): number | null {
  const stopMin = (only: (cause: string) => boolean) =>
    run.stops
      .filter(({ cause }) => only(cause))
      .reduce(
        (sum, stop) =>
          sum + ((stop.endedAt ?? run.endedAt).getTime() - stop.startedAt.getTime()) / msPerMin,
        0,
      );
  const elapsedMin = (run.endedAt.getTime() - run.startedAt.getTime()) / msPerMin;
  // Set-up is stated once as a stop and once as a figure; the larger of both is the set-up.
  const setUpMin = Math.max(
    run.setUpMin,
    stopMin((cause) => cause === 'setUp'),
  );
  const workedMin = elapsedMin - setUpMin - stopMin((cause) => cause !== 'setUp');
  return run.madeCount > 0 && workedMin > 0 ? workedMin / run.madeCount : null;
}

export interface StepTimes {
  readonly setUpMin: number;
  readonly firstPieceMin: number;
  readonly unitMin: number;
}

/** Minutes per part: the median of the measured runs once there are three, else the estimate of the step. */
function unitMinOf(step: StepTimes, past: readonly PastRun[]): number {
  const measured = past.map(realMinPerPart).filter((min) => min !== null);
  return measured.length >= runsForMeasuredTime ? (median(measured) ?? step.unitMin) : step.unitMin;
}

/** Minutes of one batch at a step: set-up + first piece + quantity x minutes per part. */
export function plannedMinOf(
  step: StepTimes,
  batch: { quantity: number; past: readonly PastRun[] },
): number {
  const min = step.setUpMin + step.firstPieceMin + batch.quantity * unitMinOf(step, batch.past);
  return Math.round(min * 10) / 10;
}

export interface CandidateCell {
  readonly id: string;
  readonly code: string;
  readonly kind: CellKind;
  readonly queuedMin: number;
}

/**
 * Where a step could go: a cell of its kind that keeps a set-up of it, else any cell of its kind; the one with the
 * shortest run queue first, by code where equal. Null when the shop has no such cell.
 */
export function proposeCell<C extends CandidateCell>(facts: {
  cellKind: CellKind;
  cells: readonly C[];
  setUpCellIds: ReadonlySet<string>;
}): C | null {
  const fitting = facts.cells.filter(({ kind }) => kind === facts.cellKind);
  const withSetUp = fitting.filter(({ id }) => facts.setUpCellIds.has(id));
  const [best] = (withSetUp.length > 0 ? withSetUp : fitting).toSorted(
    (a, b) => a.queuedMin - b.queuedMin || a.code.localeCompare(b.code),
  );
  return best ?? null;
}
