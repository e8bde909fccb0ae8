import type { BodyOf, Job, orders as routes } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { enqueue, type StepToQueue } from '../queue/enqueue.js';
import { openPoints } from '../quality/open-points.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import {
  appendJob,
  currentJob,
  planAgain,
  refuseEnded,
  refuseHeld,
  writtenJob,
} from './job-service.js';
import { planReader } from './plan-store.js';
import { plannedTimeOf } from './planned-time-of.js';
import { ordersWriter, type JobRecord } from './store.js';
import { cellPlanReader } from './cell-plan-store.js';

type SplitInput = BodyOf<(typeof routes)['split']>;
type MergeInput = BodyOf<(typeof routes)['merge']>;
type ShortInput = BodyOf<(typeof routes)['closeShort']>;

/** Batches that are split, merged or closed short; runs, counts and events stay where they were made. */
export function batchService(foundation: Foundation) {
  return { ...splitting(foundation), ...merging(foundation), ...closing(foundation) };
}

function splitting({ uow, newId, timeZone }: Foundation) {
  return {
    async split(actor: Actor, id: string, input: SplitInput): Promise<{ job: Job; splitOff: Job }> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        refuseEnded(job);
        refuseSplit(job, input.quantity);
        const rest = job.quantity - input.quantity;
        const splitOffId = newId();
        const number = await store.nextNumbers('job', 1);
        const dueOn = input.dueOn ?? job.dueOn;
        await store.addJobs([
          {
            ...{ id: splitOffId, number, orderId: job.orderId, quantity: input.quantity, dueOn },
            lineNumber: await store.nextLine(job.orderId),
            ...{ revisionId: job.revisionId, orderedRevision: job.orderedRevision },
            ...{ released: job.released, holdReason: job.holdReason },
            ...{ pastDueReason: job.pastDueReason, createdAt: unit.now },
          },
        ]);
        await store.setJob({ id, version: job.version }, { quantity: rest });
        await planAgain(unit, job, rest);
        await queueLike(unit, job, { jobId: splitOffId, quantity: input.quantity });
        appendJob(unit, job, {
          type: 'job.split',
          before: { quantity: job.quantity },
          after: { quantity: rest, splitOff: number, splitOffQuantity: input.quantity },
          reason: input.reason,
        });
        unit.append({
          type: 'job.taken',
          subjectType: 'job',
          subjectId: splitOffId,
          version: 1,
          after: {
            orderId: job.orderId,
            number,
            quantity: input.quantity,
            dueOn,
            splitFrom: job.number,
          },
          reason: input.reason,
        });
        return {
          job: await writtenJob(store, id, today),
          splitOff: await writtenJob(store, splitOffId, today),
        };
      });
    },
  };
}

function merging({ uow, timeZone }: Foundation) {
  return {
    async merge(actor: Actor, id: string, input: MergeInput): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        const from = await store.job(input.fromJobId);
        if (from === null) throw notFound('job', input.fromJobId, 'body.fromJobId');
        refuseMerge(job, from);
        const quantity = job.quantity + from.quantity;
        const dueOn = job.dueOn < from.dueOn ? job.dueOn : from.dueOn;
        await store.setJob({ id, version: job.version }, { quantity, dueOn });
        await planAgain(unit, job, quantity);
        await store.setJob(
          { id: from.id, version: from.version },
          { state: 'cancelled', finishedAt: unit.now },
        );
        await store.cancelSteps(from.id);
        appendJob(unit, job, {
          type: 'job.merged',
          before: { quantity: job.quantity, dueOn: job.dueOn },
          after: { quantity, dueOn, takenUp: from.number, takenUpQuantity: from.quantity },
          reason: input.reason,
        });
        appendJob(unit, from, {
          type: 'job.cancelled',
          before: { state: from.state },
          after: { state: 'cancelled', mergedInto: job.number },
          reason: input.reason,
        });
        return writtenJob(store, id, today);
      });
    },
  };
}

function closing({ uow, timeZone, newId }: Foundation) {
  return {
    async closeShort(actor: Actor, id: string, input: ShortInput): Promise<Job> {
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        const today = { now: unit.now, timeZone };
        const job = await currentJob(store, id, { expected: input.expectedVersion, today });
        refuseEnded(job);
        refuseHeld(job, 'closed short');
        const goodCount = job.steps.at(-1)?.goodCount ?? 0;
        refuseShort(job, goodCount);
        const ended = await store.stepsToEnd(id);
        await store.endSteps(id, unit.now);
        const of = { jobNumber: job.number, partNumber: job.partNumber };
        for (const step of ended) await openPoints(unit, { ...step, ...of }, newId);
        // What QA has to look at first ends the job afterwards, like a batch that was put down.
        const inspected = ended.some(({ holdPoint }) => holdPoint);
        const state = inspected ? job.state : ('closedShort' as const);
        await store.setJob(
          { id, version: job.version },
          inspected ? {} : { state, finishedAt: unit.now },
        );
        appendJob(unit, job, {
          type: inspected ? 'job.endedShort' : 'job.closedShort',
          before: { state: job.state },
          after: { state, goodCount, quantity: job.quantity },
          reason: input.reason,
        });
        return writtenJob(store, id, today);
      });
    },
  };
}

/** The same steps at the same cells, at the end of their run queues. */
async function queueLike(
  unit: Unit,
  job: JobRecord,
  batch: { jobId: string; quantity: number },
): Promise<void> {
  const open = job.steps.filter(({ state }) => state !== 'cancelled');
  const stepIds = open.map(({ stepId }) => stepId);
  const times = await planReader(unit.tx).stepTimes(stepIds);
  const past = await planReader(unit.tx).pastRuns(stepIds);
  const stations = await cellPlanReader(unit.tx).stations(open.map(({ cellId }) => cellId));
  const steps = open.flatMap(({ stepId, number, cellId }, index): StepToQueue[] => {
    const step = times.get(stepId);
    if (step === undefined) return [];
    const cell = { id: cellId, stations: stations.get(cellId) ?? 1 };
    const { plannedMin } = plannedTimeOf(step, {
      ...{ quantity: batch.quantity, past: past.get(stepId) ?? [], cell },
    });
    const state = index === 0 ? 'waiting' : 'blocked';
    return [{ ...{ stepId, number, cellId, plannedMin, state }, before: null }];
  });
  await enqueue(unit, { jobId: batch.jobId, steps });
}

/** Good, scrap or in quarantine: a part that is made stays in the batch it was made in. */
function madeIn({ goodCount, scrapCount, quarantinedCount }: JobRecord['steps'][number]): number {
  return goodCount + scrapCount + quarantinedCount;
}

/** Parts that are made in a step belong to the batch that they were made in. */
function refuseSplit(job: JobRecord, quantity: number): void {
  const done = job.steps.find(({ state }) => state === 'done');
  if (done !== undefined) {
    throw new Refusal(
      'NOT_NOW',
      `Step ${done.number} of job ${job.number} is done for all ${job.quantity} parts, so the batch goes on whole. Close it short, or take further parts as a new order.`,
    );
  }
  const made = Math.max(0, ...job.steps.map(madeIn));
  const most = Math.min(job.quantity - 1, job.quantity - made);
  if (quantity <= most) return;
  throw refuseField(
    'NOT_NOW',
    `Job ${job.number} has ${job.quantity} parts, and ${made} of them are made: ${quantity} cannot become a job of their own.`,
    'body.quantity',
    quantity,
    most < 1 ? 'nothing: no part is left to split off' : `1 to ${most}`,
  );
}

function refuseMerge(job: JobRecord, from: JobRecord): void {
  const into = (why: string, allowed: string) =>
    refuseField('DOES_NOT_FIT', why, 'body.fromJobId', String(from.number), allowed);
  if (job.id === from.id) {
    throw into(`Job ${job.number} cannot be merged with itself.`, 'another job of the same order');
  }
  refuseEnded(job);
  refuseEnded(from);
  if (job.orderId !== from.orderId || job.revisionId !== from.revisionId) {
    throw into(
      `Job ${from.number} is not of the same order and revision as job ${job.number}: merged, nobody could say any more which order a part belongs to.`,
      `a job of order ${job.orderNumber} in revision ${job.revision} of ${job.partNumber}`,
    );
  }
  if (job.released !== from.released) {
    throw into(
      `One of jobs ${job.number} and ${from.number} is released and the other is not. Release both first.`,
      'a job that is released like the other',
    );
  }
  const begun = from.steps.find(
    (step) => step.state === 'held' || step.state === 'done' || madeIn(step) > 0,
  );
  const done = job.steps.find(({ state }) => state === 'done');
  if (begun !== undefined) {
    throw new Refusal(
      'NOT_NOW',
      `Work on job ${from.number} has begun; it stays a batch of its own.`,
    );
  }
  if (done !== undefined) {
    throw new Refusal(
      'NOT_NOW',
      `Step ${done.number} of job ${job.number} is done already; it can take up no further parts.`,
    );
  }
}

function refuseShort(job: JobRecord, goodCount: number): void {
  const { number, openNcrs } = job;
  if (openNcrs.length > 0) {
    throw new Refusal(
      'NOT_NOW',
      `NCR ${openNcrs.join(', ')} of job ${number} is open. Close it first, then the job.`,
    );
  }
  const [hold] = job.openHolds;
  if (hold !== undefined) {
    throw new Refusal('NOT_NOW', `Job ${number} is held: ${hold}. QA decides first.`);
  }
  if (goodCount > 0) return;
  throw new Refusal(
    'NOT_NOW',
    `No part of job ${number} is finished. Cancel the job instead of closing it short.`,
  );
}
