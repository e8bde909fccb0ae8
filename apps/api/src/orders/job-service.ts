import type { BodyOf, Job, orders as routes } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { planReader } from './plan-store.js';
import { plannedTimeOf } from './planned-time-of.js';
import { cellPlanReader } from './cell-plan-store.js';
import { ordersWriter, type JobRecord, type ordersReader } from './store.js';
import { toJobView, type Today } from './views.js';

type EditInput = BodyOf<(typeof routes)['editJob']>;
type Store = ReturnType<typeof ordersWriter>;

/** Changes to a job that is on its way. */
export function jobService({ uow, timeZone }: Foundation) {
  return {
    async editJob(actor: Actor, id: string, input: EditInput): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        refuseEnded(job);
        const { quantity = job.quantity, dueOn = job.dueOn } = input;
        refuseQuantity(job, quantity);
        await store.setJob({ id, version: job.version }, { quantity, dueOn });
        if (quantity !== job.quantity) await planAgain(unit, job, quantity);
        appendJob(unit, job, {
          type: 'job.changed',
          before: { quantity: job.quantity, dueOn: job.dueOn },
          after: { quantity, dueOn },
          reason: input.reason,
        });
        return writtenJob(store, id, today);
      });
    },

    async cancelJob(
      actor: Actor,
      id: string,
      input: { reason: string; expectedVersion: number },
    ): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        refuseEnded(job);
        refuseHeld(job);
        await store.setJob(
          { id, version: job.version },
          { state: 'cancelled', finishedAt: unit.now },
        );
        await store.cancelSteps(id);
        appendJob(unit, job, {
          type: 'job.cancelled',
          before: { state: job.state },
          after: { state: 'cancelled' },
          reason: input.reason,
        });
        return writtenJob(store, id, today);
      });
    },

    async setKit(
      actor: Actor,
      jobStepId: string,
      input: { complete: boolean; note: string },
    ): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const job = await store.jobOfStep(jobStepId);
        const step = job?.steps.find((each) => each.id === jobStepId);
        if (job === null || step === undefined) throw notFound('step of a job', jobStepId);
        await store.setKit(jobStepId, input.complete);
        unit.append({
          type: 'jobStep.kit',
          subjectType: 'jobStep',
          subjectId: jobStepId,
          version: step.version + 1,
          cellId: step.cellId,
          before: { kitComplete: step.kitComplete },
          after: { kitComplete: input.complete },
          reason: input.note === '' ? null : input.note,
        });
        return writtenJob(store, job.id, { now: unit.now, timeZone });
      });
    },
  };
}

/** The job as it stands, or a refusal that shows it when the caller's version is older. */
export async function currentJob(
  store: ReturnType<typeof ordersReader>,
  id: string,
  { expected, today }: { expected: number; today: Today },
): Promise<JobRecord> {
  const job = await store.job(id);
  if (job === null) throw notFound('job', id);
  if (job.version !== expected) throw stale('job', toJobView(job, today), expected);
  return job;
}

export async function writtenJob(
  store: ReturnType<typeof ordersReader>,
  id: string,
  today: Today,
): Promise<Job> {
  const job = await store.job(id);
  if (job === null) throw notFound('job', id);
  return toJobView(job, today);
}

export function refuseEnded({ number, state }: JobRecord): void {
  if (state === 'waiting' || state === 'running') return;
  const words = { done: 'done', closedShort: 'closed short', cancelled: 'cancelled' }[state];
  throw new Refusal('NOT_NOW', `Job ${number} is ${words} and stays as it is.`);
}

export function refuseHeld(job: JobRecord, act = 'cancelled'): void {
  const held = job.steps.find(({ state }) => state === 'held');
  if (held === undefined) return;
  const holder = held.holder ?? 'Somebody';
  throw new Refusal(
    'NOT_NOW',
    `${holder} holds step ${held.number} of job ${job.number} at ${held.cellCode}. It can be ${act} once it is put down.`,
    { current: { holder: held.holder, cellCode: held.cellCode, stepNumber: held.number } },
  );
}

/** What is made stays counted: a batch can neither shrink below it nor grow past a step that is done. */
function refuseQuantity(job: JobRecord, quantity: number): void {
  const goodCount = Math.max(0, ...job.steps.map((step) => step.goodCount + step.quarantinedCount));
  if (quantity < goodCount) {
    throw refuseField(
      'NOT_NOW',
      `${goodCount} good parts of job ${job.number} are counted already; the quantity cannot be ${quantity}.`,
      'body.quantity',
      quantity,
      `${goodCount} or more`,
    );
  }
  const done = job.steps.find(({ state }) => state === 'done');
  if (quantity > job.quantity && done !== undefined) {
    throw refuseField(
      'NOT_NOW',
      `Step ${done.number} of job ${job.number} is done for ${job.quantity} parts. Take the further ${quantity - job.quantity} as a new order.`,
      'body.quantity',
      quantity,
      `${goodCount} to ${job.quantity}`,
    );
  }
}

export async function planAgain(unit: Unit, job: JobRecord, quantity: number): Promise<void> {
  const store: Store = ordersWriter(unit.tx);
  const open = job.steps.filter(({ state }) => state !== 'done' && state !== 'cancelled');
  const stepIds = open.map(({ stepId }) => stepId);
  const times = await planReader(unit.tx).stepTimes(stepIds);
  const past = await planReader(unit.tx).pastRuns(stepIds);
  const stations = await cellPlanReader(unit.tx).stations(open.map(({ cellId }) => cellId));
  for (const { id, stepId, cellId } of open) {
    const step = times.get(stepId);
    if (step === undefined) continue;
    const cell = { id: cellId, stations: stations.get(cellId) ?? 1 };
    const time = plannedTimeOf(step, { quantity, past: past.get(stepId) ?? [], cell });
    await store.setPlannedMin(id, time.plannedMin);
  }
}

type JobEvent =
  | 'job.changed'
  | 'job.cancelled'
  | 'job.released'
  | 'job.split'
  | 'job.merged'
  | 'job.closedShort'
  | 'job.endedShort';

/** One event for the job, and the run queues of its cells hear of it. */
export function appendJob(
  unit: Unit,
  job: JobRecord,
  event: {
    type: JobEvent;
    before: object;
    after: object;
    reason: string;
    meaning?: 'checked';
  },
): void {
  const [first] = job.steps;
  unit.append({
    ...event,
    subjectType: 'job',
    subjectId: job.id,
    version: job.version + 1,
    ...(first === undefined ? {} : { cellId: first.cellId }),
  });
}
