import { bounds, firstRefusal, type Bound } from '../quantities.js';
import { refused, type Refused } from '../result.js';
import type { SourceId } from '../sources/index.js';

interface AskedWork {
  readonly workMin: number;
  /** The period in which it is due, counted from 0; what is overdue belongs to the first. */
  readonly dueIn: number;
}

interface AskedInputs {
  /** Minutes of work that each period holds. */
  readonly openMin: readonly number[];
  /** In the order of the queue. Work due behind the last period is not asked of any. */
  readonly work: readonly AskedWork[];
}

export interface PeriodAsked {
  /** Due in this period. */
  readonly dueMin: number;
  /** Due before and left over from the periods before, as they held no more. */
  readonly carriedMin: number;
  /** Due and carried over what the period holds; null where it holds nothing. */
  readonly share: number | null;
  readonly overMin: number;
  /** Places in `work` of what does not end within the period, in order. */
  readonly over: readonly number[];
}

type Asked =
  | {
      readonly ok: true;
      readonly periods: readonly PeriodAsked[];
      readonly sources: readonly SourceId[];
    }
  | Refused;

/** Weeks of some twenty years. */
const periodNumber: Bound = { min: 0, max: 1000, unit: '', whole: true };
/** A rest below this is the last digit of a sum, no work. */
const leastMin = 1e-6;

/**
 * What the due dates ask of each period against what it holds: work is taken by its due period, within one by its
 * place in the queue, and what a period cannot hold is carried into the next. Minutes; source: definition.
 */
export function askedByPeriod({ openMin, work }: AskedInputs): Asked {
  const refusal = firstRefusal([
    ...openMin.map((minutes, at) => [`openMin.${at}`, minutes, bounds.durationMin] as const),
    ...work.flatMap(({ workMin, dueIn }, at) => [
      [`work.${at}.workMin`, workMin, bounds.durationMin] as const,
      [`work.${at}.dueIn`, dueIn, periodNumber] as const,
    ]),
  ]);
  if (refusal) return refused(refusal);
  let carried: readonly Rest[] = [];
  const periods = openMin.map((open, period): PeriodAsked => {
    const due = work.flatMap(({ workMin, dueIn }, at) =>
      dueIn === period ? [{ at, leftMin: workMin }] : [],
    );
    const [dueMin, carriedMin] = [sumOf(due), sumOf(carried)];
    carried = workedOff([...carried, ...due], open);
    return {
      ...{ dueMin, carriedMin, share: open > 0 ? (dueMin + carriedMin) / open : null },
      ...{ overMin: sumOf(carried), over: carried.map(({ at }) => at) },
    };
  });
  return { ok: true, periods, sources: ['dueLoad'] };
}

interface Rest {
  readonly at: number;
  readonly leftMin: number;
}

function sumOf(work: readonly Rest[]): number {
  return work.reduce((sum, { leftMin }) => sum + leftMin, 0);
}

function workedOff(work: readonly Rest[], openMin: number): Rest[] {
  let roomMin = openMin;
  return work.flatMap(({ at, leftMin }) => {
    const doneMin = Math.min(roomMin, leftMin);
    roomMin -= doneMin;
    return leftMin - doneMin > leastMin ? [{ at, leftMin: leftMin - doneMin }] : [];
  });
}
