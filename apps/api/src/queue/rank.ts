/** Distance between neighbours of a freshly numbered lane: room for about thirty halvings. */
export const rankGap = 1024;

/** Below this a halving would soon run out of binary digits. */
const smallestGap = 1e-6;

/**
 * A rank between two neighbours of a run queue; null is the end of the queue on that side. Answers null when the
 * neighbours stand too close: number the lane again first.
 */
export function rankBetween(neighbours: {
  before: number | null;
  after: number | null;
}): number | null {
  const { before, after } = neighbours;
  if (before === null && after === null) return rankGap;
  if (before === null) return (after ?? 0) - rankGap;
  if (after === null) return before + rankGap;
  return after - before > smallestGap ? before + (after - before) / 2 : null;
}
