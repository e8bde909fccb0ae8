import type { Instance } from './instance.js';
import { solve } from './solve.js';

interface Row {
  readonly name: string;
  /** One for each mark. */
  readonly costs: readonly number[];
  readonly best: number;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(3)} %`;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** How far the orders that were read at one mark lie from the best ones known. */
function gapsAt(rows: readonly Row[], mark: number) {
  const cost = sum(rows.map(({ costs }) => costs[mark] ?? 0));
  const best = sum(rows.map((row) => row.best));
  const gaps = rows
    .filter((row) => row.best > 0)
    .map((row) => (row.costs[mark] ?? 0) / row.best - 1)
    .sort((left, right) => left - right);
  return {
    ...{ cost, best, sumGap: best > 0 ? cost / best - 1 : 0 },
    meanGap: sum(gaps) / Math.max(gaps.length, 1),
    medianGap: gaps[gaps.length >> 1] ?? 0,
    worstGap: gaps.at(-1) ?? 0,
    zeroFound: rows.filter((row) => row.best === 0 && row.costs[mark] === 0).length,
    zeroKnown: rows.filter((row) => row.best === 0).length,
  };
}

/**
 * Solves every instance once, reads it at each mark of `seconds` and, with other seeds, solves it `runs` times in
 * `against` seconds, and compares the sums: a single gap says little where the best cost is near zero.
 */
export function measure(
  instances: Instance[],
  wishes: {
    seconds: readonly number[];
    against: number;
    runs: number;
    seed: number;
    cpu: boolean;
    json: boolean;
  },
): string {
  const { seconds, against, runs, seed, cpu } = wishes;
  const rows = instances.map((instance): Row => {
    const costs = solve(instance, wishes).map(({ cost }) => cost);
    const longer = Array.from({ length: runs }, (_, at) =>
      solve(instance, { seconds: [against], seed: seed + 1 + at, cpu }),
    );
    const best = Math.min(...costs, ...longer.flat().map(({ cost }) => cost));
    return { name: instance.name, costs, best };
  });
  const marks = seconds.map((mark, at) => ({ seconds: mark, ...gapsAt(rows, at) }));
  if (wishes.json) return JSON.stringify({ instances: rows.length, against, runs, marks, rows });
  return [
    ...rows.map(({ name, costs, best }) => `${name}: ${costs.join(', ')}; best known ${best}`),
    `${rows.length} instances against ${runs} runs of ${against} s each, in seconds ${cpu ? 'of the processor' : 'of the wall'}`,
    ...marks.map(
      (mark) =>
        `after ${mark.seconds} s: sum of costs ${mark.cost}, of the best ${mark.best}, ${percent(mark.sumGap)} over; ` +
        `mean gap ${percent(mark.meanGap)}, median ${percent(mark.medianGap)}, worst ${percent(mark.worstGap)}; ` +
        `cost 0 found in ${mark.zeroFound} of the ${mark.zeroKnown} where it is known`,
    ),
  ].join('\n');
}
