import { allowedCurrent, worstTenMinuteDuty } from '@tackboard/calc';
import type { Cell } from '@tackboard/contract';
import { cycleOf, type StepTimes } from './planned-time-of.js';

export interface CurrentAtDuty {
  /** What the weaker of torch and power source carries. */
  readonly allowedA: number;
  readonly dutyPct: number;
  readonly of: 'torch' | 'power source';
}

export type RatedCell = Pick<
  Cell,
  | 'id'
  | 'stations'
  | 'sourceRatingA'
  | 'sourceRatingPct'
  | 'torchRatingA'
  | 'torchRatingPct'
  | 'torchMaxA'
>;

/**
 * The duty in the worst ten minutes of the cycle of a step at a cell, and the current that torch and power source
 * carry then; null where the cycle or every rating is not on file. No maximum of a source is kept: it is not taken
 * above its rating.
 */
export function currentAtDuty(step: StepTimes, cell: RatedCell): CurrentAtDuty | null {
  const cycle = cycleOf(step, cell);
  if (cycle === null) return null;
  const { arcS, robotS } = cycle.parts;
  const duty = worstTenMinuteDuty({ arcS, robotS, cycleS: cycle.value });
  if (!duty.ok) return null;
  const dutyPct = duty.value;
  const { torchRatingA, torchRatingPct, torchMaxA, sourceRatingA, sourceRatingPct } = cell;
  const ratings = [
    ['torch', torchRatingA, torchRatingPct, torchMaxA ?? torchRatingA],
    ['power source', sourceRatingA, sourceRatingPct, sourceRatingA],
  ] as const;
  const carried = ratings.flatMap(([of, ratedA, ratedDutyPct, maxA]): CurrentAtDuty[] => {
    if (ratedA === null || ratedDutyPct === null || maxA === null) return [];
    const allowed = allowedCurrent({ ratedA, ratedDutyPct, dutyPct, maxA });
    return allowed.ok ? [{ allowedA: allowed.value, dutyPct, of }] : [];
  });
  return carried.toSorted((a, b) => a.allowedA - b.allowedA)[0] ?? null;
}
