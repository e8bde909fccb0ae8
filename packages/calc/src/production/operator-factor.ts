import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

/**
 * Usual arc time over the time of the welding task, in %, by way of working. Tasks are not shifts: over a whole
 * shift trade articles have 10 to 20 % for manual work. Only for a shop that has not measured its own.
 */
export const usualOperatorFactors = {
  stick: { lowPct: 30, highPct: 30 },
  semiAutomatic: { lowPct: 40, highPct: 45 },
  mechanised: { lowPct: 50, highPct: 50 },
  automatic: { lowPct: 60, highPct: 80 },
} as const;

interface OperatorInputs {
  arcMin: number;
  wholeMin: number;
  /** What the whole is: a welding task from the first tack to the last clean-up, or the paid shift. */
  over: 'task' | 'shift';
}

/**
 * Operator factor, as a share of 1: arc time over the whole time of the task or of the shift, as `inputs.over` says.
 * The two are not comparable, and mixing them is the largest error in cost. Arc time cannot exceed the whole.
 */
export function operatorFactor(inputs: OperatorInputs): Calculation<OperatorInputs> {
  const { arcMin, wholeMin, over } = inputs;
  const refusal = firstRefusal([
    ['arcMin', arcMin, bounds.durationMin],
    ['wholeMin', wholeMin, bounds.positiveMin],
  ]);
  if (refusal) return refused(refusal);
  if (arcMin > wholeMin) {
    const allowed = `not more than the whole, ${wholeMin} min`;
    return refused({ argument: 'arcMin', given: arcMin, allowed });
  }
  if (!['task', 'shift'].includes(over)) {
    return refused({ argument: 'over', given: over, allowed: 'task or shift' });
  }
  return calculated({
    value: arcMin / wholeMin,
    unit: 'share',
    inputs,
    sources: ['operatorFactor'],
  });
}

interface TaskInputs {
  arcMin: number;
  operatorFactor: number;
}

/** Whole time in min of a task from its arc time and its operator factor (share of 1). */
export function taskTime(inputs: TaskInputs): Calculation<TaskInputs> {
  const refusal = firstRefusal([
    ['arcMin', inputs.arcMin, bounds.durationMin],
    ['operatorFactor', inputs.operatorFactor, bounds.share],
  ]);
  if (refusal) return refused(refusal);
  const value = inputs.arcMin / inputs.operatorFactor;
  return calculated({ value, unit: 'min', inputs, sources: ['operatorFactor'] });
}
