export interface Figures {
  readonly count: number;
  readonly p50Ms: number;
  readonly p95Ms: number;
  readonly p99Ms: number;
}

/** Nearest-rank percentiles of the times in milliseconds. */
export function figuresOf(timesMs: readonly number[]): Figures {
  const sorted = timesMs.toSorted((a, b) => a - b);
  const rank = (share: number) => {
    const found = sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
    if (found === undefined) throw new Error('Nothing was measured.');
    return Math.round(found * 1000) / 1000;
  };
  return { count: sorted.length, p50Ms: rank(0.5), p95Ms: rank(0.95), p99Ms: rank(0.99) };
}

export function timeOf(act: () => void): number {
  const start = performance.now();
  act();
  return performance.now() - start;
}

export async function timeOfAsync(act: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await act();
  return performance.now() - start;
}
