import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';

/** From this many runs on their spread says something. */
const runsForBand = 3;
const bandLow = 0.1;
const bandHigh = 0.9;

interface PastInputs {
  /** What a good part took in each past run. */
  unitMin: readonly number[];
}

interface PastParts {
  runs: number;
  /** Within which the middle four fifths of the runs lie; null while there are fewer than three. */
  band: { lowMin: number; highMin: number } | null;
}

/**
 * What a part is likely to take in min, from past runs: their median, with the band from the 10th to the 90th
 * percentile once there are three runs. Percentiles are interpolated (Hyndman and Fan 1996, definition 7).
 */
export function fromPastRuns(inputs: PastInputs): CalculationInParts<PastInputs, PastParts> {
  const { unitMin } = inputs;
  if (unitMin.length === 0) {
    return refused({ argument: 'unitMin', given: unitMin, allowed: 'one past run or more' });
  }
  const refusal = firstRefusal(
    unitMin.map((each, index) => [`unitMin[${index}]`, each, bounds.positiveMin]),
  );
  if (refusal) return refused(refusal);
  const sorted = unitMin.toSorted((one, other) => one - other);
  const hasBand = sorted.length >= runsForBand;
  return {
    ...calculated({
      value: percentile(sorted, 0.5),
      unit: 'min',
      inputs,
      sources: ['pastRuns'],
      warnings: hasBand ? [] : [{ code: 'tooFewRuns', given: sorted.length }],
    }),
    parts: {
      runs: sorted.length,
      band: hasBand
        ? { lowMin: percentile(sorted, bandLow), highMin: percentile(sorted, bandHigh) }
        : null,
    },
  };
}

function percentile(sorted: readonly number[], share: number): number {
  const place = (sorted.length - 1) * share;
  const below = sorted[Math.floor(place)] as number;
  const above = sorted[Math.ceil(place)] as number;
  return below + (place - Math.floor(place)) * (above - below);
}
