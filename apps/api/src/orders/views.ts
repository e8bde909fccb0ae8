import type { Job, Order } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { JobRecord, OrderRecord } from './store.js';

export interface Today {
  readonly now: Date;
  readonly timeZone: string;
}

/** Late: the due day has ended before the job was done. A cancelled job is not late. */
function isLate(job: JobRecord, { now, timeZone }: Today): boolean {
  return job.state !== 'cancelled' && job.dueOn < shopDay(job.finishedAt ?? now, timeZone);
}

export function toJobView(job: JobRecord, today: Today): Job {
  return {
    ...job,
    createdAt: job.createdAt.toISOString(),
    finishedAt: job.finishedAt?.toISOString() ?? null,
    late: isLate(job, today),
    steps: job.steps.map(({ stepId: _stepId, ...step }) => step),
  };
}

export function toOrderView(
  order: OrderRecord,
  { names, today }: { names: Map<string, string>; today: Today },
): Order {
  return {
    ...order,
    createdAt: order.createdAt.toISOString(),
    createdBy: names.get(order.createdBy) ?? order.createdBy,
    jobs: order.jobs.map((job) => toJobView(job, today)),
  };
}
