import { bounds, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type ArgumentRefusal,
  type Calculation,
  type CalculationInParts,
} from '../result.js';
import { arcWithin } from './duty.js';

const ratingWindowS = 600;
const percent = 100;
const mostPieces = 2_000;

interface WorstInputs {
  arcS: number;
  /** Time in which the robot welds and moves; the rest of the cycle is loading. */
  robotS: number;
  cycleS: number;
}

/**
 * Duty in % over the worst 10 minutes of a repeated cycle: the window opens as the robot starts. The arc is
 * taken as spread evenly over the robot time. Source of the window: IEC 60974-1.
 */
export function worstTenMinuteDuty(inputs: WorstInputs): Calculation<WorstInputs> {
  const { arcS, robotS, cycleS } = inputs;
  const refusal =
    arcWithin(arcS, 'robotS', robotS, 'robot time') ??
    firstRefusal([['cycleS', cycleS, bounds.positiveS]]);
  if (refusal) return refused(refusal);
  if (robotS > cycleS) {
    const allowed = `not more than the cycle, ${cycleS} s`;
    return refused({ argument: 'robotS', given: robotS, allowed });
  }
  const wholeCycles = Math.floor(ratingWindowS / cycleS);
  const restS = ratingWindowS - wholeCycles * cycleS;
  const windowArcS = wholeCycles * arcS + (Math.min(restS, robotS) / robotS) * arcS;
  return calculated({
    value: (windowArcS / ratingWindowS) * percent,
    unit: '%',
    inputs,
    sources: ['iec60974', 'evenArc'],
    warnings: [{ code: 'arcSpreadEvenly', given: null }],
  });
}

/** A stretch of a cycle: the arc burns through it or it does not. */
export interface CyclePiece {
  arc: boolean;
  durationS: number;
}

interface WindowInputs {
  /** One cycle in its order; it repeats without end. */
  pieces: readonly CyclePiece[];
}

interface WindowParts {
  arcS: number;
  /** Where in the cycle the worst window opens. */
  opensAtS: number;
}

function piecesRefusal(pieces: readonly CyclePiece[]): ArgumentRefusal | null {
  if (!Array.isArray(pieces) || pieces.length === 0 || pieces.length > mostPieces) {
    const allowed = `a list of 1 to ${mostPieces} pieces`;
    return { argument: 'pieces', given: pieces, allowed };
  }
  const refusal = firstRefusal(
    pieces.map(({ durationS }, index) => [
      `pieces[${index}].durationS`,
      durationS,
      bounds.durationS,
    ]),
  );
  if (refusal) return refusal;
  const wholeS = pieces.reduce((sum, { durationS }) => sum + durationS, 0);
  return firstRefusal([['cycle', wholeS, { ...bounds.positiveS, min: 0.1 }]]);
}

interface Mark {
  atS: number;
  /** Arc time from the start of the cycle. */
  arcS: number;
}

/** The start of the cycle and the ends of its pieces. */
function marks(pieces: readonly CyclePiece[]) {
  const ends: Mark[] = [{ atS: 0, arcS: 0 }];
  let [atS, arcS] = [0, 0];
  for (const { arc, durationS } of pieces) {
    atS += durationS;
    arcS += arc ? durationS : 0;
    ends.push({ atS, arcS });
  }
  return { ends, cycleS: atS, cycleArcS: arcS };
}

/** Arc time in s from the start of the first cycle to a moment, straight between the marks. */
function arcUntil({ ends, cycleS, cycleArcS }: ReturnType<typeof marks>, momentS: number): number {
  const cycles = Math.floor(momentS / cycleS);
  // Rounding must not carry the rest beyond the last mark.
  const restS = Math.min(cycleS, momentS - cycles * cycleS);
  const next = Math.max(
    1,
    ends.findIndex(({ atS }) => atS >= restS),
  );
  const [from, to] = [ends[next - 1] as Mark, ends[next] as Mark];
  const share = to.atS > from.atS ? (restS - from.atS) / (to.atS - from.atS) : 0;
  return cycles * cycleArcS + from.arcS + share * (to.arcS - from.arcS);
}

/**
 * Duty in % over the worst 10 minutes of a repeated cycle, from its real order of arc and no arc. The arc time
 * of a window changes straight while neither end meets a change of arc, and where a window cannot be bettered by
 * moving it, one that opens as a piece starts has as much arc; so only those are tried. Source of the window: IEC 60974-1. Refuses a list without time in it.
 */
export function worstWindowDuty(
  inputs: WindowInputs,
): CalculationInParts<WindowInputs, WindowParts> {
  const refusal = piecesRefusal(inputs.pieces);
  if (refusal) return refused(refusal);
  const cycle = marks(inputs.pieces);
  const worst = cycle.ends.slice(0, -1).reduce<WindowParts>(
    (most, { atS: opensAtS }) => {
      const arcS = arcUntil(cycle, opensAtS + ratingWindowS) - arcUntil(cycle, opensAtS);
      return arcS > most.arcS ? { arcS, opensAtS } : most;
    },
    { arcS: 0, opensAtS: 0 },
  );
  return {
    ...calculated({
      value: Math.min(percent, (worst.arcS / ratingWindowS) * percent),
      unit: '%',
      inputs,
      sources: ['iec60974'],
    }),
    parts: worst,
  };
}
