import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Instant } from './values.js';

export const subjectTypes = [
  'person',
  'session',
  'tablet',
  'certificate',
  'customer',
  'part',
  'revision',
  'step',
  'setUp',
  'fixture',
  'program',
  'cell',
  'wpqr',
  'wps',
  'order',
  'job',
  'jobStep',
  'assignment',
  'run',
  'item',
  'lot',
  'override',
  'nonconformance',
  'firstPiece',
  'inspectionPoint',
  'jobHold',
  'policy',
  'setting',
  'file',
] as const;
export type SubjectType = (typeof subjectTypes)[number];

export const HistoryEntry = z.object({
  seq: z.number().int(),
  at: Instant,
  type: z.string(),
  actorCode: z.string().nullable(),
  actorName: z.string().nullable(),
  deviceName: z.string().nullable(),
  before: z.unknown().nullable(),
  after: z.unknown().nullable(),
  reason: z.string().nullable(),
  meaning: z.string().nullable(),
});
export type HistoryEntry = z.infer<typeof HistoryEntry>;

/** What the live stream carries: enough to know what to fetch again, nothing that a role might not see. */
export const LiveEvent = z.object({
  seq: z.number().int(),
  type: z.string(),
  subjectType: z.enum(subjectTypes),
  subjectId: z.string(),
  version: z.number().int().nullable(),
  cellId: z.string().nullable(),
});
export type LiveEvent = z.infer<typeof LiveEvent>;

const area = 'records';
export const records = {
  history: defineRoute({
    id: 'history',
    area,
    method: 'GET',
    path: '/api/history/:subjectType/:subjectId',
    summary: 'What happened to one record, newest first',
    access: access.signedIn,
    params: z.object({ subjectType: z.enum(subjectTypes), subjectId: z.string().min(1).max(60) }),
    query: z.object({
      limit: z.coerce.number().int().min(1).max(200).default(50),
      before: z.coerce.number().int().optional(),
    }),
    reply: z.object({ entries: z.array(HistoryEntry), more: z.boolean() }),
    refusals: [],
  }),
  health: defineRoute({
    id: 'health',
    area,
    method: 'GET',
    path: '/api/health',
    summary: 'Whether the service and its database answer',
    access: access.public,
    reply: z.object({ ok: z.literal(true), version: z.string(), database: z.literal('ok') }),
    refusals: [],
  }),
};
/** `GET /api/stream` is server-sent events and stands outside the JSON routes. */
export const liveStream = { path: '/api/stream', access: access.tabletOrPerson } as const;
