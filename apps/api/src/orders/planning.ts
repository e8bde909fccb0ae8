import type { cellKinds } from '@tackboard/contract';

export type CellKind = (typeof cellKinds)[number];

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

export interface CandidateCell {
  readonly id: string;
  readonly code: string;
  readonly kind: CellKind;
  readonly queuedMin: number;
}

/**
 * Where a step could go: a cell of its kind that keeps a set-up of it, else any cell of its kind; there and else one
 * that has what the step takes, if any has; the one with the shortest run queue first, by code where equal. Null when
 * the shop has no such cell.
 */
export function proposeCell<C extends CandidateCell>(facts: {
  cellKind: CellKind;
  cells: readonly C[];
  setUpCellIds: ReadonlySet<string>;
  isAble: (cell: C) => boolean;
}): C | null {
  const fitting = facts.cells.filter(({ kind }) => kind === facts.cellKind);
  const withSetUp = fitting.filter(({ id }) => facts.setUpCellIds.has(id));
  const known = withSetUp.length > 0 ? withSetUp : fitting;
  const able = known.filter(facts.isAble);
  // Where none has it, the order is taken all the same, and its notes say what is missing.
  const [best] = (able.length > 0 ? able : known).toSorted(
    (a, b) => a.queuedMin - b.queuedMin || a.code.localeCompare(b.code),
  );
  return best ?? null;
}
