import { z } from 'zod';
import { roles } from './access.js';
import { Id } from './values.js';

export const fitResults = ['inside', 'outside', 'cannotSay'] as const;
export const strengths = ['pass', 'tell', 'gate', 'refuse'] as const;

export const FitLine = z.object({
  variable: z.string(),
  result: z.enum(fitResults),
  given: z.union([z.number(), z.string()]).nullable(),
  unit: z.string().nullable(),
  min: z.number().nullable(),
  max: z.number().nullable(),
  allowed: z.array(z.string()).nullable(),
  /** Distance to the nearest limit in `unit`; negative when outside. */
  margin: z.number().nullable(),
  reason: z.string(),
  strength: z.enum(strengths),
});
export type FitLine = z.infer<typeof FitLine>;

export const FitAnswer = z.object({
  result: z.enum(fitResults),
  strength: z.enum(strengths),
  wpsId: Id.nullable(),
  wpsLabel: z.string().nullable(),
  welds: z.array(
    z.object({ weldNumber: z.number().int(), result: z.enum(fitResults), lines: z.array(FitLine) }),
  ),
});
export type FitAnswer = z.infer<typeof FitAnswer>;

/** Who can clear what stands in the way: a role, or the coordinator by that authority. */
export const clearers = [...roles, 'coordinator'] as const;
export type Clearer = (typeof clearers)[number];

export const clearances = ['clear', 'notClear', 'cannotSay'] as const;

/** One line of the ready check, in words, with its strength. */
export const ReadyLine = z.object({
  rule: z.string(),
  strength: z.enum(strengths),
  text: z.string(),
  overriddenBy: z.string().nullable(),
  state: z.enum(clearances),
  /** Null where it is clear. */
  clearedBy: z.enum(clearers).nullable(),
});
export type ReadyLine = z.infer<typeof ReadyLine>;
