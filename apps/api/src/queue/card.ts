import type { SetUpCard } from '@tackboard/contract';
import type { StepFacts } from './facts.js';
import type { RecentReading } from './facts-store.js';
import { lateOn } from './lane.js';
import type { Readiness } from './ready.js';

/** The set-up card as it is shown, from what was read and what was decided. */
export function cardOf(
  facts: StepFacts,
  readiness: Readiness,
  at: { today: string; readings: readonly RecentReading[] },
): SetUpCard {
  const { setUp, wps, step, cell, welds } = facts;
  return {
    step: lateOn(facts.record, at.today),
    welds: [...welds],
    setUp,
    firstPiece: facts.firstPiece,
    instructions: step.instructions,
    extraction: cell.extraction,
    wps,
    fit: readiness.fit.answer,
    ready: [...readiness.lines],
    figures: readiness.figures,
    recentReadings: at.readings.map((reading) => ({ ...reading, at: reading.at.toISOString() })),
  };
}
