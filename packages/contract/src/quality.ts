import { z } from 'zod';
import { access } from './access.js';
import { firstPieces } from './first-piece.js';
import { holds } from './holds.js';
import { nonconformances } from './nonconformances.js';
import { defineRoute } from './route.js';
import { Id, Instant, text } from './values.js';

export const Override = z.object({
  id: Id,
  jobId: Id,
  jobNumber: z.number().int(),
  jobStepId: Id.nullable(),
  rule: z.string(),
  reason: z.string(),
  signedBy: z.string(),
  forPerson: z.string().nullable(),
  signedAt: Instant,
  expiresAt: Instant,
});
export type Override = z.infer<typeof Override>;

const area = 'quality';
export const quality = {
  ...firstPieces,
  ...nonconformances,
  ...holds,
  overrides: defineRoute({
    id: 'listOverrides',
    area,
    method: 'GET',
    path: '/api/overrides',
    summary: 'Overrides signed, newest first',
    access: access.signedIn,
    query: z.object({ jobId: Id.optional() }),
    reply: z.object({ overrides: z.array(Override) }),
    refusals: [],
  }),
  addOverride: defineRoute({
    id: 'addOverride',
    area,
    method: 'POST',
    path: '/api/job-steps/:jobStepId/overrides',
    summary: 'Let a gated rule pass for one step, with a reason; never for oneself',
    access: access.coordinator,
    params: z.object({ jobStepId: Id }),
    body: z.object({
      rule: text(40),
      reason: text(500, 15),
      forPersonId: Id,
      days: z.number().int().min(1, 'must be 1 day or more').max(30, 'must be 30 days or less'),
    }),
    reply: Override,
    refusals: ['NOT_FOUND', 'NOT_ALLOWED', 'NOT_NOW'],
  }),
};
