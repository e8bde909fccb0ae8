import { bounds, firstRefusal, type Bound } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';

/** The unit theory adds up part by part, so that a run of parts is bounded. */
const mostParts: Bound = { min: 1, max: 100_000, unit: 'parts', whole: true };
const rate: Bound = { min: 0.5, max: 1, unit: '' };

interface LearningInputs {
  firstMin: number;
  /** What each doubling of the parts leaves of the time, as a share of 1; 0.8 to 0.95 are usual, welding about 0.9. */
  rate: number;
  count: number;
  /** What falls with each doubling: the time of the last part (Crawford) or the average of all parts (Wright). */
  falls: 'unit' | 'average';
}

interface LearningParts {
  /** log2 of the rate. */
  exponent: number;
  /** Of the last part. */
  unitMin: number;
  averageMin: number;
}

/**
 * Time in min of a number of parts that go quicker with practice: n to the power log2(rate), as the time of part n
 * (Crawford) or as the average of n parts (Wright 1936). The same rate means more saving in Wright's reading.
 */
export function learningTime(
  inputs: LearningInputs,
): CalculationInParts<LearningInputs, LearningParts> {
  const refusal = firstRefusal([
    ['firstMin', inputs.firstMin, bounds.positiveMin],
    ['rate', inputs.rate, rate],
    ['count', inputs.count, mostParts],
  ]);
  if (refusal) return refused(refusal);
  const { falls } = inputs;
  if (!['unit', 'average'].includes(falls)) {
    return refused({ argument: 'falls', given: falls, allowed: 'unit or average' });
  }
  const exponent = Math.log2(inputs.rate);
  const { totalMin, unitMin } = timesOf(inputs, exponent);
  return {
    ...calculated({ value: totalMin, unit: 'min', inputs, sources: ['learningCurve'] }),
    parts: { exponent, unitMin, averageMin: totalMin / inputs.count },
  };
}

function timesOf({ firstMin, count, falls }: LearningInputs, exponent: number) {
  if (falls === 'average') {
    const totalOf = (parts: number) => (parts === 0 ? 0 : firstMin * parts ** (exponent + 1));
    return { totalMin: totalOf(count), unitMin: totalOf(count) - totalOf(count - 1) };
  }
  let totalMin = 0;
  for (let part = 1; part <= count; part += 1) totalMin += firstMin * part ** exponent;
  return { totalMin, unitMin: firstMin * count ** exponent };
}
