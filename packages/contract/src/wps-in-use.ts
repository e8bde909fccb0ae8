import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Id, Instant } from './values.js';

const Dialled = z.object({
  currentA: z.number().nullable(),
  voltageV: z.number().nullable(),
  wireSpeedMMin: z.number().nullable(),
  travelMmMin: z.number().nullable(),
});

/** What is set and what was read under a procedure: the newest of each, so that it never grows. */
export const WpsInUse = z.object({
  setUps: z.array(
    Dialled.extend({
      id: Id,
      cellCode: z.string(),
      partNumber: z.string(),
      stepNumber: z.number().int(),
      wireDiameterMm: z.number().nullable(),
      preheatC: z.number().nullable(),
    }),
  ),
  /** Newest first, of the last runs under this revision. */
  readings: z.array(
    Dialled.extend({
      at: Instant,
      preheatC: z.number().nullable(),
      interpassC: z.number().nullable(),
    }),
  ),
});
export type WpsInUse = z.infer<typeof WpsInUse>;

export const wpsInUse = {
  read: defineRoute({
    id: 'wpsInUse',
    area: 'procedures',
    method: 'GET',
    path: '/api/wpss/:wpsId/in-use',
    summary: 'Set-ups that name a procedure and the last readings under this revision',
    access: access.signedIn,
    params: z.object({ wpsId: Id }),
    reply: WpsInUse,
    refusals: ['NOT_FOUND'],
  }),
};
