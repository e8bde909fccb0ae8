import { z } from 'zod';
import { access } from './access.js';
import { ReadyLine } from './fit.js';
import { JobChange } from './job-changes.js';
import { OrderCheck, PromiseAnswer } from './order-check.js';
import { defineRoute } from './route.js';
import {
  Count,
  Day,
  DurationMin,
  Id,
  Instant,
  Page,
  Quantity,
  Reason,
  text,
  Version,
} from './values.js';

export const jobStates = ['waiting', 'running', 'done', 'closedShort', 'cancelled'] as const;
export const jobStepStates = ['blocked', 'waiting', 'held', 'done', 'cancelled'] as const;

export const JobStepView = z.object({
  id: Id,
  version: Version,
  number: z.number().int(),
  name: z.string(),
  cellId: Id,
  cellCode: z.string(),
  state: z.enum(jobStepStates),
  plannedMin: z.number(),
  goodCount: Count,
  scrapCount: Count,
  quarantinedCount: Count,
  holder: z.string().nullable(),
  kitComplete: z.boolean(),
});
export const Job = z.object({
  id: Id,
  version: Version,
  number: z.number().int(),
  orderId: Id,
  orderNumber: z.number().int(),
  customerName: z.string(),
  customerOrder: z.string(),
  partId: Id,
  partNumber: z.string(),
  partName: z.string(),
  revisionId: Id,
  revision: z.string(),
  orderedRevision: z.string(),
  quantity: z.number().int(),
  dueOn: Day,
  state: z.enum(jobStates),
  released: z.boolean(),
  holdReason: z.string().nullable(),
  pastDueReason: z.string().nullable(),
  createdAt: Instant,
  finishedAt: Instant.nullable(),
  late: z.boolean(),
  /** Numbers of NCRs that are open: until they are closed the job is not complete and nothing of it leaves. */
  openNcrs: z.array(z.number().int()),
  /** Reasons of quarantine and hold points that wait: they keep the job as open NCRs do. */
  openHolds: z.array(z.string()),
  /** What others do after the last step; null where nothing is. */
  outside: z
    .object({
      work: z.string(),
      days: z.number().int(),
      /** Until when it is expected back, while it is out. */
      dueBackOn: Day.nullable(),
      /** Not sent yet, or not back: the job is not complete until then. */
      open: z.boolean(),
    })
    .nullable(),
  steps: z.array(JobStepView),
});
export type Job = z.infer<typeof Job>;

export const Order = z.object({
  id: Id,
  version: Version,
  number: z.number().int(),
  customerId: Id,
  customerName: z.string(),
  customerOrder: z.string(),
  createdAt: Instant,
  createdBy: z.string(),
  jobs: z.array(Job),
});
export type Order = z.infer<typeof Order>;

const OrderLine = z.object({
  partId: Id,
  orderedRevision: text(10),
  /** Fingerprint of the drawing that came with the order, to hold against the one on file; null where none came. */
  drawingPrint: text(128).nullable().default(null),
  quantity: Quantity,
  dueOn: Day,
  /** Asked for when the due date has passed. */
  pastDueReason: Reason.nullable().default(null),
  /** Set after the question about an unusual quantity was answered. */
  quantityConfirmed: z.boolean().default(false),
  /** Set after the question whether a part that is kept for another customer is the one that is meant. */
  partConfirmed: z.boolean().default(false),
  /** The cell of each step by its number; the tool proposes one where none is named. */
  cells: z
    .array(
      z.object({
        stepNumber: z.number().int(),
        cellId: Id,
        /** The queued step to stand before; null is the end of the run queue. */
        beforeStepId: Id.nullable().default(null),
      }),
    )
    .default([]),
});

/** A job whose steps, worked off in the order of the run queues, end past its due date. */
export const LateJob = z.object({
  jobId: Id,
  number: z.number().int(),
  customerName: z.string(),
  partNumber: z.string(),
  quantity: z.number().int(),
  dueOn: Day,
  /** Null where the calendars have no such hours. */
  finishAt: Instant.nullable(),
  lateMin: z.number().nullable(),
});
export type LateJob = z.infer<typeof LateJob>;

export const JobReadiness = z.object({
  /** Steps that are still to be made. */
  steps: z.array(
    z.object({
      jobStepId: Id,
      stepNumber: z.number().int(),
      stepName: z.string(),
      cellCode: z.string(),
      ready: z.boolean(),
      lines: z.array(ReadyLine),
    }),
  ),
  /** Null once the job has ended. */
  promise: PromiseAnswer.nullable(),
  /** Changes that nobody has acknowledged at the cell yet. */
  changes: z.array(JobChange),
});
export type JobReadiness = z.infer<typeof JobReadiness>;

/** Milliseconds from the first key to the confirm: the shop watches its own sixty seconds. */
const EntryTime = z.number().int().min(0).max(86_400_000).nullable().default(null);

const area = 'orders';
const JobParams = z.object({ jobId: Id });
export const orders = {
  list: defineRoute({
    id: 'listOrders',
    area,
    method: 'GET',
    path: '/api/orders',
    summary: 'Orders, newest first',
    access: access.planning,
    query: Page.extend({ customerId: Id.optional() }),
    reply: z.object({ orders: z.array(Order), total: Count }),
    refusals: [],
  }),
  get: defineRoute({
    id: 'getOrder',
    area,
    method: 'GET',
    path: '/api/orders/:orderId',
    summary: 'One order with its jobs',
    access: access.planning,
    params: z.object({ orderId: Id }),
    reply: Order,
    refusals: ['NOT_FOUND'],
  }),
  check: defineRoute({
    id: 'checkOrderLine',
    area,
    method: 'POST',
    path: '/api/orders/check',
    summary: 'What an order line needs and where it could go; nothing is stored',
    access: access.office,
    body: OrderLine.extend({
      /** Who orders, as far as that is known yet. */
      customerId: Id.nullable().default(null),
      /** What programming would take, where the robot is asked about and no program is proven. */
      programmingMin: DurationMin.nullable().default(null),
    }),
    reply: OrderCheck,
    refusals: ['NOT_FOUND', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  add: defineRoute({
    id: 'addOrder',
    area,
    method: 'POST',
    path: '/api/orders',
    summary: 'Take an order; each line becomes a job whose steps are queued',
    access: access.office,
    body: z.object({
      customerId: Id,
      customerOrder: text(60),
      lines: z.array(OrderLine).min(1, 'must have at least one line').max(50),
      entryMs: EntryTime,
    }),
    reply: Order,
    refusals: ['NOT_FOUND', 'NEEDS_REASON', 'NEEDS_CONFIRMATION', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  job: defineRoute({
    id: 'getJob',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId',
    summary: 'One job with its steps',
    access: access.signedIn,
    params: JobParams,
    reply: Job,
    refusals: ['NOT_FOUND'],
  }),
  editJob: defineRoute({
    id: 'editJob',
    area,
    method: 'PATCH',
    path: '/api/jobs/:jobId',
    summary: 'Change quantity or due date of a job that is not done',
    access: access.office,
    params: JobParams,
    body: z.object({
      quantity: Quantity.optional(),
      dueOn: Day.optional(),
      reason: Reason,
      expectedVersion: Version,
    }),
    reply: Job,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  releaseJob: defineRoute({
    id: 'releaseJob',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/release',
    summary: 'Release a job whose ordered revision differed, after the comparison is signed',
    access: access.coordinator,
    params: JobParams,
    body: z.object({ changeNote: text(500, 10), expectedVersion: Version }),
    reply: Job,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  cancelJob: defineRoute({
    id: 'cancelJob',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/cancel',
    summary: 'Cancel a job nobody holds',
    access: access.office,
    params: JobParams,
    body: z.object({ reason: Reason, expectedVersion: Version }),
    reply: Job,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  setKit: defineRoute({
    id: 'setKit',
    area,
    method: 'POST',
    path: '/api/job-steps/:jobStepId/kit',
    summary: 'Say whether the parts for a step are together',
    access: access.signedIn,
    params: z.object({ jobStepId: Id }),
    body: z.object({ complete: z.boolean(), note: text(200, 0).default('') }),
    reply: Job,
    refusals: ['NOT_FOUND'],
  }),
  readiness: defineRoute({
    id: 'jobReadiness',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId/readiness',
    summary: 'What each open step of a job still lacks, who can clear it, and what can be promised',
    access: access.signedIn,
    params: JobParams,
    reply: JobReadiness,
    refusals: ['NOT_FOUND'],
  }),
  late: defineRoute({
    id: 'listLateJobs',
    area,
    method: 'GET',
    path: '/api/late-jobs',
    summary: 'Open jobs whose planned finish is past their due date, the latest first',
    access: access.planning,
    reply: z.object({ jobs: z.array(LateJob) }),
    refusals: [],
  }),
  acknowledge: defineRoute({
    id: 'acknowledgeChange',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/acknowledge-change',
    summary: 'Say at the cell that the changes of a job are seen',
    access: access.cell,
    params: JobParams,
    body: z.object({ throughSeq: z.number().int().min(1) }),
    reply: z.object({ changes: z.array(JobChange) }),
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  split: defineRoute({
    id: 'splitJob',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/split',
    summary: 'Part of a batch, none of it made yet, becomes a job of its own',
    access: access.office,
    params: JobParams,
    body: z.object({
      quantity: Quantity,
      dueOn: Day.optional(),
      reason: Reason,
      expectedVersion: Version,
    }),
    reply: z.object({ job: Job, splitOff: Job }),
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  merge: defineRoute({
    id: 'mergeJob',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/merge',
    summary: 'Take up a job of the same order and revision on which nothing is made yet',
    access: access.office,
    params: JobParams,
    body: z.object({ fromJobId: Id, reason: Reason, expectedVersion: Version }),
    reply: Job,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  closeShort: defineRoute({
    id: 'closeJobShort',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/close-short',
    summary: 'End a job with the parts that are made; what is counted stays',
    access: access.office,
    params: JobParams,
    body: z.object({ reason: Reason, expectedVersion: Version }),
    reply: Job,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
};
