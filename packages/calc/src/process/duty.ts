import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type ArgumentRefusal, type Calculation } from '../result.js';

const percent = 100;

interface AverageInputs {
  arcS: number;
  cycleS: number;
}

/** Why an arc time cannot lie within a longer one; null where it can. */
export function arcWithin(
  arcS: number,
  argument: string,
  wholeS: number,
  words: string,
): ArgumentRefusal | null {
  const refusal = firstRefusal([
    ['arcS', arcS, bounds.durationS],
    [argument, wholeS, bounds.positiveS],
  ]);
  if (refusal) return refusal;
  if (arcS <= wholeS) return null;
  return { argument: 'arcS', given: arcS, allowed: `not more than the ${words}, ${wholeS} s` };
}

/** Share of a cycle with the arc on, in %. The worst ten minutes can be higher; ratings are told against those. */
export function averageDuty(inputs: AverageInputs): Calculation<AverageInputs> {
  const refusal = arcWithin(inputs.arcS, 'cycleS', inputs.cycleS, 'cycle');
  if (refusal) return refused(refusal);
  const value = (inputs.arcS / inputs.cycleS) * percent;
  return calculated({ value, unit: '%', inputs, sources: ['timeSum'] });
}

interface Rating {
  ratedA: number;
  ratedDutyPct: number;
}
type AllowedInputs = Rating & {
  dutyPct: number;
  /** Current never to be exceeded; the rated current where the plate says no more. */
  maxA?: number | undefined;
};

/**
 * Current in A that a torch or source rated at one point takes at another duty: I sqrt(X1 / X2), never above
 * the stated maximum. A rule of thumb; plates give points that it does not meet.
 */
export function allowedCurrent(inputs: AllowedInputs): Calculation<Required<AllowedInputs>> {
  const { ratedA, ratedDutyPct, dutyPct, maxA = ratedA } = inputs;
  const refusal = firstRefusal([
    ['ratedA', ratedA, bounds.currentA],
    ['ratedDutyPct', ratedDutyPct, bounds.dutyPct],
    ['dutyPct', dutyPct, bounds.dutyPct],
    ['maxA', maxA, bounds.currentA],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: Math.min(maxA, ratedA * Math.sqrt(ratedDutyPct / dutyPct)),
    unit: 'A',
    inputs: { ratedA, ratedDutyPct, dutyPct, maxA },
    sources: ['dutyRule', 'iec60974'],
    warnings: [{ code: 'ruleOfThumb', given: null }],
  });
}

type PermittedInputs = Rating & { currentA: number };

/** Duty in % at which a torch or source rated at one point may carry a current: X (I1 / I2)^2, at most 100. */
export function permittedDuty(inputs: PermittedInputs): Calculation<PermittedInputs> {
  const refusal = firstRefusal([
    ['ratedA', inputs.ratedA, bounds.currentA],
    ['ratedDutyPct', inputs.ratedDutyPct, bounds.dutyPct],
    ['currentA', inputs.currentA, bounds.currentA],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: Math.min(percent, inputs.ratedDutyPct * (inputs.ratedA / inputs.currentA) ** 2),
    unit: '%',
    inputs,
    sources: ['dutyRule', 'iec60974'],
    warnings: [{ code: 'ruleOfThumb', given: null }],
  });
}
