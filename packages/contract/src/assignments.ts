import { z } from 'zod';
import { access } from './access.js';
import { readyTopics } from './order-check.js';
import { defineRoute } from './route.js';
import { Day, Id, Instant, Reason, text, Version } from './values.js';

/** How an assignment ended: said by a person, found to be met, or no longer needed because the step is made. */
export const assignmentEnds = ['cleared', 'met', 'ended'] as const;

/** `start`: what was not as shown when a run of the job began. */
export const assignmentTopics = [...readyTopics, 'start'] as const;

/** What a job lacked when it was ordered or when a run of it began, for one person to clear by a day. */
export const Assignment = z.object({
  id: Id,
  version: Version,
  jobId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  customerName: z.string(),
  /** Null where it is the whole job's. */
  stepNumber: z.number().int().nullable(),
  topic: z.enum(assignmentTopics),
  /** What was found missing, in words. */
  text: z.string(),
  personId: Id,
  personCode: z.string(),
  personName: z.string(),
  /** To be cleared by the end of this day. */
  dueOn: Day,
  /** Open past its day. */
  overdue: z.boolean(),
  openedAt: Instant,
  closedAt: Instant.nullable(),
  /** Null while it is open, and where it closed by itself. */
  closedBy: z.string().nullable(),
  closedAs: z.enum(assignmentEnds).nullable(),
  note: z.string(),
});
export type Assignment = z.infer<typeof Assignment>;

const area = 'assignments';
const AssignmentParams = z.object({ assignmentId: Id });
export const assignments = {
  list: defineRoute({
    id: 'listAssignments',
    area,
    method: 'GET',
    path: '/api/assignments',
    summary:
      'What is to be cleared, the first due first: open ones, and for one job those that are closed too',
    access: access.signedIn,
    query: z.object({ jobId: Id.optional(), personId: Id.optional() }),
    reply: z.object({ assignments: z.array(Assignment) }),
    refusals: [],
  }),
  edit: defineRoute({
    id: 'editAssignment',
    area,
    method: 'PATCH',
    path: '/api/assignments/:assignmentId',
    summary: 'Give an open assignment to another person or another day',
    access: access.planning,
    params: AssignmentParams,
    body: z.object({
      personId: Id.optional(),
      dueOn: Day.optional(),
      reason: Reason.nullable().default(null),
      expectedVersion: Version,
    }),
    reply: Assignment,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  clear: defineRoute({
    id: 'clearAssignment',
    area,
    method: 'POST',
    path: '/api/assignments/:assignmentId/clear',
    summary: 'Say that it is done: the person it is given to, or the office for that person',
    access: access.signedIn,
    params: AssignmentParams,
    body: z.object({ note: text(500, 0).default(''), expectedVersion: Version }),
    reply: Assignment,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'NOT_ALLOWED'],
  }),
};
