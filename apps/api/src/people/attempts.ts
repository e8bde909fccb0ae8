/** Failed sign-ins at one key (a person's code, or a device) since the last good one. */
export interface Attempts {
  readonly failures: number;
  readonly lockedUntil: Date | null;
}

const freeTries = 5;
const firstDelayS = 30;
const longestDelayS = 15 * 60;

/** After five failures every further one doubles the wait, from 30 s up to 15 min. */
export function afterFailure(before: Attempts | null, now: Date): Attempts {
  const failures = (before?.failures ?? 0) + 1;
  // Five tries may fail; the wait begins with the fifth.
  if (failures < freeTries) return { failures, lockedUntil: null };
  const delayS = Math.min(firstDelayS * 2 ** (failures - freeTries), longestDelayS);
  return { failures, lockedUntil: new Date(now.getTime() + delayS * 1000) };
}

/** Seconds still to wait, 0 when free. */
export function waitS(attempts: Attempts | null, now: Date): number {
  const lockedUntil = attempts?.lockedUntil ?? null;
  if (lockedUntil === null) return 0;
  return Math.max(0, Math.ceil((lockedUntil.getTime() - now.getTime()) / 1000));
}
