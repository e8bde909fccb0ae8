import { z } from 'zod';
import { Instant, text } from './values.js';

/**
 * What is confirmed at the cell between the pull and the first count: the five points that a welder or operator of
 * mechanised welding looks at before starting (common practice; ISO 3834-2:2021, 10.2 and 14, from memory).
 */
export const startPoints = ['part', 'consumables', 'fixture', 'settings', 'safety'] as const;
export type StartPoint = (typeof startPoints)[number];

/** A point at which the cell is not as the card asks. */
export const StartDifference = z.object({ point: z.enum(startPoints), note: text(300, 3) });
export type StartDifference = z.infer<typeof StartDifference>;

/** What was said at the start of a run: every point that is not named stands as shown. */
export const StartSaid = z.object({
  at: Instant,
  personCode: z.string(),
  differences: z.array(StartDifference),
});
export type StartSaid = z.infer<typeof StartSaid>;

/**
 * Whether parts of a run may be counted. A cell that is not safe to weld at is put right first; any other difference
 * is told to the office and work goes on. Runs that began before this was asked are not held up by it.
 */
export function startIsGiven(run: {
  readonly startAsked: boolean;
  readonly start: StartSaid | null;
}): boolean {
  if (!run.startAsked) return true;
  return run.start !== null && !run.start.differences.some(({ point }) => point === 'safety');
}
