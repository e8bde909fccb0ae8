/** After this long without a touch a tablet signs the person out; the job stays open. */
export const idleAfterMs = 10 * 60_000;

/**
 * Milliseconds until the person is signed out; 0 when it is time. A clock that was set back counts as a touch now,
 * so that nobody stays signed in for the hours by which it was wrong.
 */
export function msUntilSignOut(at: { readonly touchedMs: number; readonly nowMs: number }): number {
  const quietMs = Math.max(0, at.nowMs - at.touchedMs);
  return Math.max(0, idleAfterMs - quietMs);
}

const touches = ['pointerdown', 'keydown', 'input'] as const;

/**
 * Calls `signOut` once, ten minutes after the last touch. Returns the way to stop watching. A tablet that slept
 * looks at the clock as soon as it wakes: its timers stood still.
 */
export function watchIdle(signOut: () => void): () => void {
  let touchedMs = Date.now();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const look = () => {
    clearTimeout(timer);
    const nowMs = Date.now();
    if (nowMs < touchedMs) touchedMs = nowMs;
    const restMs = msUntilSignOut({ touchedMs, nowMs });
    if (restMs === 0) signOut();
    else timer = setTimeout(look, restMs);
  };
  const touched = () => (touchedMs = Date.now());
  for (const each of touches) addEventListener(each, touched, { capture: true });
  document.addEventListener('visibilitychange', look);
  look();
  return () => {
    clearTimeout(timer);
    for (const each of touches) removeEventListener(each, touched, { capture: true });
    document.removeEventListener('visibilitychange', look);
  };
}
