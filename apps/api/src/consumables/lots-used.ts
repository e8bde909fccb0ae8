/** A lot while it hung at a cell. */
export interface LoadSpan {
  readonly cellId: string;
  readonly loadedAt: Date;
  readonly unloadedAt: Date | null;
}

/** A run while it lasted. */
interface RunSpan {
  readonly cellId: string;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
}

/** Parts as they were counted; `since` is the count before, or the start of the run. */
interface CountSpan {
  readonly cellId: string;
  readonly since: Date;
  readonly at: Date;
  /** The numbers of the first and the last part of this count within the step. */
  readonly fromPart: number;
  readonly toPart: number;
}

/**
 * Numbers the parts of a step in the order in which they were counted. Good and scrap parts have a number; a part to
 * rework gets its own when it is counted good or scrap.
 */
export function numbered(
  counts: readonly {
    readonly cellId: string;
    readonly at: Date;
    readonly runStartedAt: Date;
    readonly good: number;
    readonly scrap: number;
  }[],
): CountSpan[] {
  const inOrder = counts.toSorted((one, other) => one.at.getTime() - other.at.getTime());
  let made = 0;
  let former: (typeof inOrder)[number] | null = null;
  return inOrder.flatMap((count) => {
    const sameRun =
      former !== null && former.runStartedAt.getTime() === count.runStartedAt.getTime();
    const since = sameRun && former !== null ? former.at : count.runStartedAt;
    former = count;
    const parts = count.good + count.scrap;
    if (parts === 0) return [];
    const fromPart = made + 1;
    made += parts;
    return [{ cellId: count.cellId, since, at: count.at, fromPart, toPart: made }];
  });
}

/**
 * The parts that were made while a lot was loaded. One part belongs to the lot that hung there when it was counted.
 * Parts counted together belong to every lot that hung there since the count before: nobody can tell them apart.
 * Null where no part was counted with it; undefined where it did not hang at the cell during any of the runs.
 */
export function partsOf(
  load: LoadSpan,
  { runs, counts }: { readonly runs: readonly RunSpan[]; readonly counts: readonly CountSpan[] },
): { readonly fromPart: number; readonly toPart: number } | null | undefined {
  const here = runs.some((run) => run.cellId === load.cellId && overlap(load, run));
  if (!here) return undefined;
  const within = counts.filter((count) => count.cellId === load.cellId && hung(load, count));
  const [first] = within;
  const last = within.at(-1);
  return first && last ? { fromPart: first.fromPart, toPart: last.toPart } : null;
}

function overlap(load: LoadSpan, run: RunSpan): boolean {
  const beganBeforeEnd = run.endedAt === null || load.loadedAt < run.endedAt;
  const stillThere = load.unloadedAt === null || load.unloadedAt > run.startedAt;
  return beganBeforeEnd && stillThere;
}

function hung(load: LoadSpan, { since, at, fromPart, toPart }: CountSpan): boolean {
  const single = fromPart === toPart;
  const from = single ? at : since;
  const loadedInTime = single ? load.loadedAt <= at : load.loadedAt < at;
  return loadedInTime && (load.unloadedAt === null || load.unloadedAt > from);
}
