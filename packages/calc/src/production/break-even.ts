import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';

interface BreakEvenInputs {
  robotFixedMin: number;
  boothFixedMin: number;
  robotUnitMin: number;
  boothUnitMin: number;
  /** Time to program the part; 0 where the program is proven. */
  programmingMin: number;
  /** Batches over which the programming is spread, this one included. */
  expectedBatches: number;
}

/**
 * Parts in a batch from which the robot takes no more time than the booth, rounded up; `parts.exact` is the
 * unrounded figure and `parts.savingMin` the time saved per part. Refuses where the robot is not the faster one
 * per part, because then no quantity breaks even.
 */
export function breakEven(
  inputs: BreakEvenInputs,
): CalculationInParts<BreakEvenInputs, { exact: number; savingMin: number }> {
  const { robotUnitMin, boothUnitMin } = inputs;
  const refusal = firstRefusal([
    ['robotFixedMin', inputs.robotFixedMin, bounds.durationMin],
    ['boothFixedMin', inputs.boothFixedMin, bounds.durationMin],
    ['robotUnitMin', robotUnitMin, bounds.positiveMin],
    ['boothUnitMin', boothUnitMin, bounds.positiveMin],
    ['programmingMin', inputs.programmingMin, bounds.durationMin],
    ['expectedBatches', inputs.expectedBatches, bounds.batches],
  ]);
  if (refusal) return refused(refusal);
  if (robotUnitMin >= boothUnitMin) {
    const allowed = `less than the booth's ${boothUnitMin} min per part, else no quantity breaks even`;
    return refused({ argument: 'robotUnitMin', given: robotUnitMin, allowed });
  }
  const savingMin = boothUnitMin - robotUnitMin;
  const programMin = inputs.programmingMin / inputs.expectedBatches;
  const exact = (inputs.robotFixedMin - inputs.boothFixedMin + programMin) / savingMin;
  const value = Math.max(0, Math.ceil(exact - 1e-9));
  return {
    ...calculated({ value, unit: 'parts', inputs, sources: ['breakEven'] }),
    parts: { exact, savingMin },
  };
}
