import { bounds, firstRefusal, secondsPerMinute } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

interface ArcTimeInputs {
  lengthMm: number;
  travelMmMin: number;
}

/** Arc time in s of one weld: length (mm) / travel (mm/min). */
export function arcTime(inputs: ArcTimeInputs): Calculation<ArcTimeInputs> {
  const refusal = firstRefusal([
    ['lengthMm', inputs.lengthMm, bounds.lengthMm],
    ['travelMmMin', inputs.travelMmMin, bounds.travelMmMin],
  ]);
  if (refusal) return refused(refusal);
  const value = (inputs.lengthMm / inputs.travelMmMin) * secondsPerMinute;
  return calculated({ value, unit: 's', inputs, sources: ['timeSum'] });
}

interface CycleWeld extends ArcTimeInputs {
  count: number;
}

export interface CycleInputs {
  welds: readonly CycleWeld[];
  /** Per weld: crater fill, ignition, gas before and after. */
  startStopS: number;
  airMovesS: number;
  cleaningS: number;
  loadS: number;
  stations: 1 | 2;
}

export interface CycleParts {
  arcS: number;
  robotS: number;
  weldCount: number;
}

function cycleRefusal(inputs: CycleInputs) {
  const { welds, stations } = inputs;
  const refusal = firstRefusal([
    ...welds.flatMap(
      (weld, index) =>
        [
          [`welds[${index}].lengthMm`, weld.lengthMm, bounds.lengthMm],
          [`welds[${index}].count`, weld.count, bounds.count],
          [`welds[${index}].travelMmMin`, weld.travelMmMin, bounds.travelMmMin],
        ] as const,
    ),
    ['startStopS', inputs.startStopS, bounds.durationS],
    ['airMovesS', inputs.airMovesS, bounds.durationS],
    ['cleaningS', inputs.cleaningS, bounds.durationS],
    ['loadS', inputs.loadS, bounds.durationS],
  ]);
  if (refusal) return refusal;
  if (welds.length === 0) return { argument: 'welds', given: welds, allowed: 'one weld or more' };
  if (![1, 2].includes(stations)) {
    return { argument: 'stations', given: stations, allowed: '1 or 2' };
  }
  return null;
}

/**
 * Cycle in s of one part: arc, start and stop per weld, air moves and cleaning make the robot time; with one
 * station loading adds to it, with two it runs beside it and the longer of the two counts.
 */
export function cycleTime(inputs: CycleInputs): CalculationInParts<CycleInputs, CycleParts> {
  const refusal = cycleRefusal(inputs);
  if (refusal) return refused(refusal);
  const arcS = inputs.welds.reduce(
    (sum, { lengthMm, count, travelMmMin }) =>
      sum + (count * lengthMm * secondsPerMinute) / travelMmMin,
    0,
  );
  const weldCount = inputs.welds.reduce((sum, { count }) => sum + count, 0);
  const robotS = arcS + weldCount * inputs.startStopS + inputs.airMovesS + inputs.cleaningS;
  const value = inputs.stations === 1 ? robotS + inputs.loadS : Math.max(robotS, inputs.loadS);
  return {
    ...calculated({ value, unit: 's', inputs, sources: ['timeSum'] }),
    parts: { arcS, robotS, weldCount },
  };
}

interface BatchInputs {
  setUpMin: number;
  firstPieceMin: number;
  quantity: number;
  cycleS: number;
  /** Good parts over parts made. */
  yieldShare: number;
}

/** Time in min of a batch: set-up + first piece + quantity x cycle / yield. `parts.runMin` is the last term. */
export function batchTime(
  inputs: BatchInputs,
): CalculationInParts<BatchInputs, { runMin: number }> {
  const refusal = firstRefusal([
    ['setUpMin', inputs.setUpMin, bounds.durationMin],
    ['firstPieceMin', inputs.firstPieceMin, bounds.durationMin],
    ['quantity', inputs.quantity, bounds.count],
    ['cycleS', inputs.cycleS, bounds.positiveS],
    ['yieldShare', inputs.yieldShare, bounds.share],
  ]);
  if (refusal) return refused(refusal);
  const runMin = (inputs.quantity * inputs.cycleS) / secondsPerMinute / inputs.yieldShare;
  const value = inputs.setUpMin + inputs.firstPieceMin + runMin;
  return {
    ...calculated({ value, unit: 'min', inputs, sources: ['timeSum'] }),
    parts: { runMin },
  };
}
