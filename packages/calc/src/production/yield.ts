import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

interface YieldInputs {
  /** Parts made and looked at. */
  madeParts: number;
  goodFirstTime: number;
  /** Good only after rework. */
  goodAfterRework: number;
}

interface YieldParts {
  firstPassYield: number;
  scrapParts: number;
}

/**
 * Good parts over parts made, as a share of 1. `parts.firstPassYield` leaves out those good only after rework.
 * The words follow ISO 22400-2, from memory.
 */
export function batchYield(inputs: YieldInputs): CalculationInParts<YieldInputs, YieldParts> {
  const { madeParts, goodFirstTime, goodAfterRework } = inputs;
  const whole = { min: 0, max: bounds.count.max, unit: 'parts', whole: true } as const;
  const refusal = firstRefusal([
    ['madeParts', madeParts, bounds.count],
    ['goodFirstTime', goodFirstTime, whole],
    ['goodAfterRework', goodAfterRework, whole],
  ]);
  if (refusal) return refused(refusal);
  const good = goodFirstTime + goodAfterRework;
  if (good > madeParts) {
    const allowed = `with those good after rework not more than the ${madeParts} parts made`;
    return refused({ argument: 'goodFirstTime', given: goodFirstTime, allowed });
  }
  return {
    ...calculated({
      value: good / madeParts,
      unit: 'share',
      inputs,
      sources: ['yield', 'iso22400'],
    }),
    parts: { firstPassYield: goodFirstTime / madeParts, scrapParts: madeParts - good },
  };
}

interface StartInputs {
  wantedParts: number;
  /** Good parts over parts made. */
  yieldShare: number;
}

/** Parts to start for a number of good ones, rounded up. */
export function partsToStart(inputs: StartInputs): Calculation<StartInputs> {
  const refusal = firstRefusal([
    ['wantedParts', inputs.wantedParts, bounds.count],
    ['yieldShare', inputs.yieldShare, bounds.share],
  ]);
  if (refusal) return refused(refusal);
  // An exact quotient must not gain a part by its last binary digit.
  const value = Math.ceil((inputs.wantedParts / inputs.yieldShare) * (1 - 1e-12));
  return calculated({ value, unit: 'parts', inputs, sources: ['yield'] });
}
