import type { Lane, QueuedStep } from '@tackboard/contract';
import type { LaneRecord, StepRecord } from './store.js';

/** Late once the day by which it is to be welded has ended in the shop's time zone. */
export function lateOn(step: StepRecord, today: string): QueuedStep {
  return { ...step, late: step.weldBy < today };
}

export function laneOn({ steps, ...cell }: LaneRecord, today: string): Lane {
  return {
    ...cell,
    queuedMin: steps.reduce((sum, { plannedMin }) => sum + plannedMin, 0),
    steps: steps.map((step) => lateOn(step, today)),
  };
}

/** How a step is named in a sentence. */
export function stepWords(step: {
  jobNumber: number;
  partNumber: string;
  stepName: string;
}): string {
  return `job ${step.jobNumber} (${step.partNumber}, ${step.stepName})`;
}
