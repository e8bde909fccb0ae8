import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Day, Id, text, Version } from './values.js';

/** A batch that is with somebody else: coating, testing, machining, welding that the shop does not do. */
export const OutsideTrip = z.object({
  id: Id,
  version: Version,
  jobId: Id,
  work: z.string(),
  toWhom: z.string(),
  sentOn: Day,
  dueBackOn: Day,
  sentBy: z.string(),
  backOn: Day.nullable(),
  certificate: z.string().nullable(),
  note: z.string(),
});
export type OutsideTrip = z.infer<typeof OutsideTrip>;

const area = 'outside';
export const outside = {
  trips: defineRoute({
    id: 'outsideTrips',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId/outside',
    summary: 'Work of a job that is done by others, the first sent first',
    access: access.signedIn,
    params: z.object({ jobId: Id }),
    reply: z.object({ trips: z.array(OutsideTrip) }),
    refusals: ['NOT_FOUND'],
  }),
  send: defineRoute({
    id: 'sendOutside',
    area,
    method: 'POST',
    path: '/api/jobs/:jobId/outside',
    summary: 'Say that a batch has left the shop, for what, to whom and until when',
    access: access.planning,
    params: z.object({ jobId: Id }),
    body: z.object({
      work: text(300, 3),
      toWhom: text(120),
      sentOn: Day,
      dueBackOn: Day,
    }),
    reply: z.object({ trips: z.array(OutsideTrip) }),
    refusals: ['NOT_FOUND', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  back: defineRoute({
    id: 'outsideBack',
    area,
    method: 'POST',
    path: '/api/outside/:tripId/back',
    summary: 'Say that a batch is back, with the paper that came along',
    access: access.planning,
    params: z.object({ tripId: Id }),
    body: z.object({
      backOn: Day,
      certificate: text(80).nullable().default(null),
      note: text(300, 0).default(''),
      expectedVersion: Version,
    }),
    reply: z.object({ trips: z.array(OutsideTrip) }),
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
} as const;
