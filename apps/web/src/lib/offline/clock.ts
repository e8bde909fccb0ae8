import type { Answered } from '../api/answered.js';

/** A clock at the cell that is further off than this is told to the people there. */
const toleranceMs = 120_000;
/** The longer an answer was under way, the less it says of the time. */
const longestTripMs = 5_000;
/** The Date header has whole seconds, cut off (RFC 9110, section 5.6.7): on average half a second is missing. */
const cutMs = 500;

/** Milliseconds to add to this device's clock to get the server's; null when an answer does not tell. */
export function offsetFrom({ date, sentAtMs, receivedAtMs }: Answered): number | null {
  const serverMs = date === null ? Number.NaN : Date.parse(date);
  const tripMs = receivedAtMs - sentAtMs;
  if (Number.isNaN(serverMs) || tripMs < 0 || tripMs > longestTripMs) return null;
  return serverMs + cutMs - (sentAtMs + tripMs / 2);
}

/** Whether a clock is so far off that people should set it. */
export function isFarOff(offsetMs: number): boolean {
  return Math.abs(offsetMs) > toleranceMs;
}
