import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { idleAfterMs, msUntilSignOut, watchIdle } from './idle.js';

const minute = 60_000;

describe('ten minutes without a touch', () => {
  it.each([
    ['just touched', 0, 10 * minute],
    ['after nine minutes', 9 * minute, minute],
    ['a millisecond before', 10 * minute - 1, 1],
    ['after ten minutes', 10 * minute, 0],
    ['after a night asleep', 14 * 60 * minute, 0],
    ['the clock was set back', -60 * minute, 10 * minute],
  ])('%s', (_words, quietMs, restMs) => {
    expect(msUntilSignOut({ touchedMs: 1_000_000, nowMs: 1_000_000 + quietMs })).toBe(restMs);
  });
});

describe('the watch on a tablet', () => {
  let page: EventTarget;
  beforeEach(() => {
    vi.useFakeTimers();
    page = new EventTarget();
    vi.stubGlobal('addEventListener', page.addEventListener.bind(page));
    vi.stubGlobal('removeEventListener', page.removeEventListener.bind(page));
    vi.stubGlobal('document', page);
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it('signs out once, ten minutes after the last touch', () => {
    const signOut = vi.fn();
    const stop = watchIdle(signOut);
    vi.advanceTimersByTime(9 * minute);
    page.dispatchEvent(new Event('pointerdown'));
    vi.advanceTimersByTime(9 * minute);
    expect(signOut).not.toHaveBeenCalled();
    vi.advanceTimersByTime(minute);
    expect(signOut).toHaveBeenCalledOnce();
    vi.advanceTimersByTime(2 * idleAfterMs);
    expect(signOut).toHaveBeenCalledOnce();
    stop();
  });

  it('signs out at once when a tablet wakes after a longer sleep', () => {
    const signOut = vi.fn();
    const stop = watchIdle(signOut);
    vi.setSystemTime(Date.now() + 3 * 60 * minute);
    page.dispatchEvent(new Event('visibilitychange'));
    expect(signOut).toHaveBeenCalledOnce();
    stop();
  });

  it('does nothing after it was stopped', () => {
    const signOut = vi.fn();
    watchIdle(signOut)();
    vi.advanceTimersByTime(2 * idleAfterMs);
    expect(signOut).not.toHaveBeenCalled();
  });
});
