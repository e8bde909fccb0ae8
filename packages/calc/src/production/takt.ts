import { bounds, firstRefusal, secondsPerMinute } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

interface TaktInputs {
  /** Breaks, meetings and planned stops taken out. */
  availableMin: number;
  demand: number;
}

function taktRows(inputs: TaktInputs) {
  return [
    ['availableMin', inputs.availableMin, bounds.positiveMin],
    ['demand', inputs.demand, bounds.demand],
  ] as const;
}

/** Takt in s: available time (min) over the parts asked for in the same period. */
export function taktTime(inputs: TaktInputs): Calculation<TaktInputs> {
  const refusal = firstRefusal(taktRows(inputs));
  if (refusal) return refused(refusal);
  const value = (inputs.availableMin * secondsPerMinute) / inputs.demand;
  return calculated({ value, unit: 's', inputs, sources: ['takt'] });
}

type ShortfallInputs = TaktInputs & { cycleS: number };

/** Minutes by which the demand outruns the available time at a cycle (s); 0 where the cycle is within the takt. */
export function taktShortfall(inputs: ShortfallInputs): Calculation<ShortfallInputs> {
  const refusal = firstRefusal([...taktRows(inputs), ['cycleS', inputs.cycleS, bounds.positiveS]]);
  if (refusal) return refused(refusal);
  const neededMin = (inputs.demand * inputs.cycleS) / secondsPerMinute;
  const value = Math.max(0, neededMin - inputs.availableMin);
  return calculated({ value, unit: 'min', inputs, sources: ['takt'] });
}
