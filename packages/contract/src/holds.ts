import { z } from 'zod';
import { access } from './access.js';
import { jobStates } from './orders.js';
import { defineRoute } from './route.js';
import { Count, Day, Id, Instant, Reason, text, Version } from './values.js';

/** What the runs looked for have in common; at least one thing besides the days. */
const Shared = z.object({
  lotId: Id.optional(),
  personId: Id.optional(),
  programId: Id.optional(),
  wpsId: Id.optional(),
  cellId: Id.optional(),
  from: Day,
  to: Day,
});
const sharedWords = 'must name a lot, a person, a program, a WPS or a cell';
const namesOne = (by: z.infer<typeof Shared>) =>
  [by.lotId, by.personId, by.programId, by.wpsId, by.cellId].some((one) => one !== undefined);
const daysInOrder = ({ from, to }: z.infer<typeof Shared>) => from <= to;
const daysWords = 'must not end before it begins';

export const ContainedWork = z.object({
  jobId: Id,
  jobNumber: z.number().int(),
  jobState: z.enum(jobStates),
  partNumber: z.string(),
  revision: z.string(),
  customerName: z.string(),
  customerOrder: z.string(),
  stepNumber: z.number().int(),
  cellCode: z.string(),
  personCodes: z.array(z.string()),
  firstDay: Day,
  lastDay: Day,
  /** Parts counted while the shared thing held, of the batch. */
  parts: Count,
  quantity: z.number().int(),
  /** The places of these parts in the order in which the step's parts were counted. */
  fromPart: z.number().int(),
  toPart: z.number().int(),
  held: z.boolean(),
});
export type ContainedWork = z.infer<typeof ContainedWork>;

export const JobHold = z.object({
  id: Id,
  version: Version,
  jobId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  customerName: z.string(),
  reason: z.string(),
  placedBy: z.string(),
  placedAt: Instant,
  liftedBy: z.string().nullable(),
  liftedAt: Instant.nullable(),
  liftReason: z.string().nullable(),
});
export type JobHold = z.infer<typeof JobHold>;

export const pointKinds = ['hold', 'witness'] as const;
export const InspectionPoint = z.object({
  id: Id,
  version: Version,
  kind: z.enum(pointKinds),
  jobId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  stepNumber: z.number().int(),
  stepName: z.string(),
  cellCode: z.string(),
  openedAt: Instant,
  /** A witness point ends by itself at this time. */
  dueAt: Instant.nullable(),
  result: z.enum(['passed', 'waived', 'timedOut']).nullable(),
  closedBy: z.string().nullable(),
  closedAt: Instant.nullable(),
  note: z.string(),
});
export type InspectionPoint = z.infer<typeof InspectionPoint>;

const area = 'quality';
export const holds = {
  containment: defineRoute({
    id: 'containment',
    area,
    method: 'GET',
    path: '/api/containment',
    summary: 'All work that shares a lot, a person, a program, a WPS or a cell between two days',
    access: access.planning,
    query: Shared.refine(namesOne, sharedWords).refine(daysInOrder, {
      error: daysWords,
      path: ['to'],
    }),
    reply: z.object({ work: z.array(ContainedWork), openJobs: Count }),
    refusals: [],
  }),
  quarantine: defineRoute({
    id: 'quarantine',
    area,
    method: 'POST',
    path: '/api/containment/quarantine',
    summary: 'Put every open job that shares it into quarantine, in one act',
    access: access.oversight,
    body: Shared.extend({ reason: Reason })
      .refine(namesOne, sharedWords)
      .refine(daysInOrder, { error: daysWords, path: ['to'] }),
    reply: z.object({ holds: z.array(JobHold), alreadyHeld: Count }),
    refusals: ['NOT_NOW'],
  }),
  holds: defineRoute({
    id: 'listHolds',
    area,
    method: 'GET',
    path: '/api/holds',
    summary: 'Jobs in quarantine, newest first',
    access: access.signedIn,
    query: z.object({ jobId: Id.optional() }),
    reply: z.object({ holds: z.array(JobHold) }),
    refusals: [],
  }),
  liftHold: defineRoute({
    id: 'liftHold',
    area,
    method: 'POST',
    path: '/api/holds/:holdId/lift',
    summary: 'Take a job out of quarantine',
    access: access.qa,
    params: z.object({ holdId: Id }),
    body: z.object({ reason: Reason, expectedVersion: Version }),
    reply: JobHold,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  points: defineRoute({
    id: 'listInspectionPoints',
    area,
    method: 'GET',
    path: '/api/inspection-points',
    summary: 'Hold and witness points that wait for the inspector',
    access: access.signedIn,
    query: z.object({ jobId: Id.optional() }),
    reply: z.object({ points: z.array(InspectionPoint) }),
    refusals: [],
  }),
  closePoint: defineRoute({
    id: 'closeInspectionPoint',
    area,
    method: 'POST',
    path: '/api/inspection-points/:pointId/close',
    summary: 'Pass a hold or witness point, or waive it with a reason',
    access: access.qa,
    params: z.object({ pointId: Id }),
    body: z.object({
      result: z.enum(['passed', 'waived']),
      note: text(300, 0).default(''),
      expectedVersion: Version,
    }),
    reply: InspectionPoint,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'NEEDS_REASON'],
  }),
};
