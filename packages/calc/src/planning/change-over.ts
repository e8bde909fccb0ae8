import { fromPastRuns } from '../production/past-runs.js';
import { refused, type Refused } from '../result.js';
import type { SourceId } from '../sources/index.js';

/** What is changed at a cell between two steps, in the order in which it is shown. */
export const changeKinds = ['wire', 'gas', 'torch', 'fixture', 'program'] as const;
export type ChangeKind = (typeof changeKinds)[number];

/** Minutes for each kind of change: starting values from common practice, which a shop's own runs replace. */
const tableMin: Readonly<Record<ChangeKind, number>> = {
  wire: 15,
  gas: 5,
  torch: 10,
  fixture: 10,
  program: 5,
};

/** From this many measured change-overs of the same kinds on they are used in place of the table. */
const runsNeeded = 3;

/** One change-over as it was made: what differed between two consecutive steps at a cell, and what it took. */
export interface MeasuredChangeOver {
  readonly changed: readonly ChangeKind[];
  readonly minutes: number;
}

/** The median of the measured change-overs of the same kinds, with the band of their middle four fifths. */
export interface LearntChangeOver {
  readonly changed: readonly ChangeKind[];
  readonly minutes: number;
  readonly lowMin: number;
  readonly highMin: number;
  readonly runs: number;
}

export interface ChangeOver {
  /** Minutes of work at the cell. */
  readonly minutes: number;
  /** Measured here, summed from the table, or the whole setting up of the step, which the sum never passes. */
  readonly basis: 'measured' | 'table' | 'wholeSetUp';
  readonly learnt: LearntChangeOver | null;
}

const sources = ['pastRuns'] as const satisfies readonly SourceId[];

/** The kinds in their own order and each once, so that the same change is the same however it was listed. */
function inOrder(changed: readonly ChangeKind[]): ChangeKind[] {
  return changeKinds.filter((kind) => changed.includes(kind));
}

/**
 * What change-overs take at one cell, in min, from those that were measured there: the median, with the band from the
 * 10th to the 90th percentile, of each set of kinds that was changed three times or more. Fewer say nothing, and a
 * set is never split into its kinds: what is changed together is not done one after the other. Refuses minutes that
 * are not positive. Source: Hyndman and Fan 1996 for the percentiles; three as the least is the shop's rule.
 */
export function learnChangeOvers({
  measured,
}: {
  measured: readonly MeasuredChangeOver[];
}): { ok: true; learnt: LearntChangeOver[]; sources: readonly SourceId[] } | Refused {
  const byKinds = new Map<string, { changed: ChangeKind[]; unitMin: number[] }>();
  for (const [at, { changed, minutes }] of measured.entries()) {
    if (!(minutes > 0 && Number.isFinite(minutes))) {
      const allowed = 'more than 0 min, as measured';
      return refused({ argument: `measured[${at}].minutes`, given: minutes, allowed });
    }
    const kinds = inOrder(changed);
    const known = byKinds.get(kinds.join()) ?? { changed: kinds, unitMin: [] };
    known.unitMin.push(minutes);
    byKinds.set(kinds.join(), known);
  }
  const learnt = [...byKinds.values()].flatMap(({ changed, unitMin }) => {
    if (unitMin.length < runsNeeded) return [];
    const answer = fromPastRuns({ unitMin });
    if (!answer.ok || answer.parts.band === null) return [];
    const { runs, band } = answer.parts;
    return [{ changed, minutes: answer.value, ...band, runs }];
  });
  return { ok: true, learnt, sources };
}

/**
 * Minutes to change a cell over where `changed` differs between two steps: as measured at the cell, else the sum of
 * the table's minutes, which is never more than setting the step up with nothing in place. Both are job minutes, work
 * at the cell without breaks. Source: the cell's own runs; the table is common practice.
 */
export function changeOver({
  changed,
  setUpMin,
  learnt,
}: {
  changed: readonly ChangeKind[];
  /** Minutes to set the step up with nothing in place. */
  setUpMin: number;
  learnt: readonly LearntChangeOver[];
}): ChangeOver {
  const kinds = inOrder(changed);
  const own = learnt.find((each) => each.changed.join() === kinds.join());
  if (own !== undefined && kinds.length > 0) {
    return { minutes: own.minutes, basis: 'measured', learnt: own };
  }
  const sum = kinds.reduce((minutes, kind) => minutes + tableMin[kind], 0);
  return sum <= setUpMin
    ? { minutes: sum, basis: 'table', learnt: null }
    : { minutes: setUpMin, basis: 'wholeSetUp', learnt: null };
}
