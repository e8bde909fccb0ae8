import { jobNamedBy, type Board, type QueuedStep } from '@tackboard/contract';

/** What a scanned or typed code means at a cell. */
export type Scanned =
  /** It is no code of a job at all. */
  | { readonly kind: 'foreign' }
  /** A step of the job stands in the queue here. */
  | { readonly kind: 'here'; readonly step: QueuedStep }
  /** A job, but none of its steps stands in the queue here. */
  | { readonly kind: 'notHere' };

function stepsOf(code: string, steps: readonly QueuedStep[]): readonly QueuedStep[] | null {
  const named = jobNamedBy(code);
  if (named === null) return null;
  return steps.filter((step) =>
    'jobId' in named ? step.jobId === named.jobId : step.jobNumber === named.jobNumber,
  );
}

/** The step of the job that comes first here: the one in work, then the one that waits. */
export function scannedHere(code: string, steps: readonly QueuedStep[]): Scanned {
  const found = stepsOf(code, steps);
  if (found === null) return { kind: 'foreign' };
  const step =
    found.find(({ state }) => state === 'held') ??
    found.find(({ state }) => state === 'waiting') ??
    found[0];
  return step === undefined ? { kind: 'notHere' } : { kind: 'here', step };
}

interface Place {
  readonly jobNumber: number;
  readonly cellCode: string;
  readonly stepName: string;
}

/** Where the open steps of the job stand, over all queues. */
export function placesOf(code: string, { lanes }: Pick<Board, 'lanes'>): readonly Place[] {
  return lanes.flatMap(({ cellCode, steps }) =>
    (stepsOf(code, steps) ?? []).map(({ jobNumber, stepName }) => ({
      ...{ jobNumber, cellCode, stepName },
    })),
  );
}
