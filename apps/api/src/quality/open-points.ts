import type { Unit } from '../db/unit-of-work.js';
import { pointsWriter } from './points-store.js';

/** A step that has ended, with what is to be inspected after it. */
export interface EndedStep {
  readonly jobStepId: string;
  readonly cellId: string;
  readonly jobNumber: number;
  readonly partNumber: string;
  readonly holdPoint: boolean;
  /** Minutes that a witness point waits; null where the step has none. */
  readonly witnessMin: number | null;
}

const msPerMinute = 60_000;

/** Calls the inspector to the points of a step, in the commit that ends it. */
export async function openPoints(
  unit: Unit,
  { jobStepId, cellId, jobNumber, partNumber, holdPoint, witnessMin }: EndedStep,
  newId: () => string,
): Promise<void> {
  const openedAt = unit.now;
  const witnessUntil =
    witnessMin === null ? null : new Date(openedAt.getTime() + witnessMin * msPerMinute);
  const points = [
    ...(holdPoint ? [{ kind: 'hold' as const, dueAt: null }] : []),
    ...(witnessUntil === null ? [] : [{ kind: 'witness' as const, dueAt: witnessUntil }]),
  ];
  for (const point of points) {
    const id = newId();
    await pointsWriter(unit.tx).open({ id, jobStepId, openedAt, ...point });
    unit.append({
      type: 'inspectionPoint.opened',
      subjectType: 'inspectionPoint',
      subjectId: id,
      version: 1,
      cellId,
      after: {
        ...{ kind: point.kind, dueAt: point.dueAt?.toISOString() ?? null },
        ...{ jobNumber, partNumber },
      },
    });
  }
}
