import type { PartDetail } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { DoneJob } from './history-store.js';

const msPerMin = 60_000;

/** One finished job as the part shows it; minutes run from each pull to its put-down, over all steps. */
export function lastMade(job: DoneJob, timeZone: string): PartDetail['lastMade'][number] {
  const runs = job.steps.flatMap((step) => step.runs);
  const realMs = runs.reduce(
    (sum, { startedAt, endedAt }) =>
      sum + (endedAt === null ? 0 : endedAt.getTime() - startedAt.getTime()),
    0,
  );
  return {
    jobNumber: job.number,
    on: shopDay(job.finishedAt, timeZone),
    revision: job.revision,
    quantity: job.quantity,
    cellCode: job.steps.at(-1)?.cellCode ?? '',
    customerName: job.customerName,
    realMin: runs.length === 0 ? null : Math.round(realMs / (msPerMin / 10)) / 10,
    scrap: job.steps.reduce((sum, { scrapCount }) => sum + scrapCount, 0),
  };
}

/** The median batch in whole parts, the larger one where it lies between two; null before the first job. */
export function usualQuantity(quantities: readonly number[]): number | null {
  const sorted = quantities.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle];
  if (upper === undefined) return null;
  const lower = sorted.length % 2 === 1 ? upper : (sorted[middle - 1] ?? upper);
  return Math.ceil((lower + upper) / 2);
}
