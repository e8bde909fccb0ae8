import { dayIn } from '../format/time.js';
import { instantOf } from './lane-times.js';

const longestDayMin = 26 * 60;

/** The minutes since 1970 at which a day of the shop begins, after one minute and up to another. */
export function dayStarts(
  { startMin, endMin }: { readonly startMin: number; readonly endMin: number },
  timeZone: string,
): number[] {
  const starts: number[] = [];
  let next = nextDayStart(startMin, timeZone);
  while (next <= endMin) {
    starts.push(next);
    next = nextDayStart(next, timeZone);
  }
  return starts;
}

/** Found by halving, because a day has 23 or 25 hours when the clock changes. */
function nextDayStart(fromMin: number, timeZone: string): number {
  const day = dayIn(instantOf(fromMin), timeZone);
  let before = Math.floor(fromMin);
  let after = before + longestDayMin;
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2);
    if (dayIn(instantOf(middle), timeZone) === day) before = middle;
    else after = middle;
  }
  return after;
}

const shortestDays = 2;
const longestDays = 7;

/** From now to the end of the day on which the last step finishes, two days at least and seven at most. */
export function spanAhead(nowMin: number, ends: readonly (number | null)[], timeZone: string) {
  const last = Math.max(nowMin, ...ends.map((end) => end ?? Infinity));
  const starts = dayStarts(
    { startMin: nowMin, endMin: nowMin + (longestDays + 1) * 1440 },
    timeZone,
  );
  const endMin =
    starts.slice(shortestDays, longestDays).find((day) => day >= last) ?? starts[longestDays - 1]!;
  return { startMin: nowMin, endMin };
}
