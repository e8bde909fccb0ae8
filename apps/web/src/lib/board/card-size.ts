const remPerHour = 4;
/** Below this a card could not hold its words; above it one long batch would push the rest out of sight. */
const shortestRem = 8;
const longestRem = 28;

/** Height of a card in rem: by the planned minutes, within what can be read at a glance. */
export function cardHeightRem(plannedMin: number): number {
  return Math.min(longestRem, Math.max(shortestRem, (plannedMin / 60) * remPerHour));
}

/** The share of the planned minutes that goes into setting up, 0 to 1. */
export function setUpShare({ plannedMin, setUpMin }: { plannedMin: number; setUpMin: number }) {
  return plannedMin <= 0 ? 0 : Math.min(1, Math.max(0, setUpMin / plannedMin));
}

/** For each step the planned minutes of the steps that stand before it. */
export function minutesAhead(steps: readonly { readonly plannedMin: number }[]): number[] {
  let sum = 0;
  return steps.map(({ plannedMin }) => {
    const ahead = sum;
    sum += plannedMin;
    return ahead;
  });
}
