const remPerHour = 4;
/** Below this a card could not hold its words; above it one long batch would push the rest out of sight. */
const shortestRem = 8;
const longestRem = 28;

/** Height of a card in rem: by the planned minutes, within what can be read at a glance. */
export function cardHeightRem(plannedMin: number): number {
  return Math.min(longestRem, Math.max(shortestRem, (plannedMin / 60) * remPerHour));
}

interface Work {
  readonly plannedMin: number;
  readonly setUpMin: number;
  readonly goodCount: number;
  readonly scrapCount: number;
}

/** The share of the minutes still ahead that goes into setting up, 0 to 1; none once a part is made. */
export function setUpShare({ plannedMin, setUpMin, goodCount, scrapCount }: Work): number {
  if (plannedMin <= 0 || goodCount + scrapCount > 0) return 0;
  return Math.min(1, Math.max(0, setUpMin / plannedMin));
}
