import type { WorkingWindow } from '@tackboard/calc';

export interface Gap {
  readonly startMin: number;
  readonly endMin: number;
}

/** The spans between two minutes in which a cell does not work, in order. */
export function gapsBetween(windows: readonly WorkingWindow[], { startMin, endMin }: Gap): Gap[] {
  const gaps: Gap[] = [];
  let at = startMin;
  for (const window of windows) {
    if (window.endMin <= at) continue;
    if (window.startMin >= endMin) break;
    if (window.startMin > at) gaps.push({ startMin: at, endMin: window.startMin });
    at = window.endMin;
  }
  if (at < endMin) gaps.push({ startMin: at, endMin });
  return gaps;
}

const remPerHour = 0.2;
/** Below this a gap could not hold its words. */
const shortestRem = 1.6;

/** Height of the gaps between two cards, all to one scale of their own: a night is a strip, a weekend a band. */
export function gapHeightRem({ startMin, endMin }: Gap): number {
  return Math.max(shortestRem, ((endMin - startMin) / 60) * remPerHour);
}

interface Part extends Gap {
  readonly kind: 'set-up' | 'run' | 'gap';
}

/** A step in the order of the clock: setting up, running, and the gaps in which it stands still. */
export function partsOf(
  step: Gap,
  {
    setUpShare,
    windows,
  }: { readonly setUpShare: number; readonly windows: readonly WorkingWindow[] },
): Part[] {
  const gaps = gapsBetween(windows, step);
  const workMin = lengthOf(step) - gaps.reduce((sum, gap) => sum + lengthOf(gap), 0);
  const parts: Part[] = [];
  let setUpLeftMin = workMin * setUpShare;
  let startMin = step.startMin;
  const add = (kind: Part['kind'], endMin: number) => {
    if (endMin > startMin) parts.push({ kind, startMin, endMin });
    startMin = endMin;
  };
  const work = (untilMin: number) => {
    const setUpMin = Math.min(setUpLeftMin, untilMin - startMin);
    setUpLeftMin -= setUpMin;
    add('set-up', startMin + setUpMin);
    add('run', untilMin);
  };
  for (const gap of gaps) {
    work(gap.startMin);
    add('gap', gap.endMin);
  }
  work(step.endMin);
  return parts;
}

export function lengthOf({ startMin, endMin }: Gap): number {
  return endMin - startMin;
}
