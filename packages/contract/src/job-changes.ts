import { z } from 'zod';
import { Id, Instant } from './values.js';

/** A change of a job in flight that the people at the cell have not acknowledged. */
export const JobChange = z.object({
  seq: z.number().int(),
  jobId: Id,
  jobNumber: z.number().int(),
  at: Instant,
  by: z.string().nullable(),
  /** What changed, from what to what. */
  text: z.string(),
  reason: z.string().nullable(),
  /** True while somebody holds a step that was pulled before the change. */
  sincePull: z.boolean(),
});
export type JobChange = z.infer<typeof JobChange>;
