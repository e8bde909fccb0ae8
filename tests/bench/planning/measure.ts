import type { Instance } from './instance.js';
import { solve } from './solve.js';

function percent(share: number): string {
  return `${(share * 100).toFixed(3)} %`;
}

/**
 * Solves every instance once in `seconds` and, with other seeds, twice in `against` seconds, and compares the sums:
 * a single gap says little where the best cost is near zero.
 */
export function measure(
  instances: Instance[],
  wishes: { seconds: number; against: number; seed: number; cpu: boolean; json: boolean },
): string {
  const rows = instances.map((instance) => {
    const { cost } = solve(instance, wishes);
    const longer = [1, 2].map((more) =>
      solve(instance, { seconds: wishes.against, seed: wishes.seed + more, cpu: wishes.cpu }),
    );
    return { name: instance.name, cost, best: Math.min(cost, ...longer.map((run) => run.cost)) };
  });
  const cost = rows.reduce((sum, row) => sum + row.cost, 0);
  const best = rows.reduce((sum, row) => sum + row.best, 0);
  const gaps = rows
    .filter((row) => row.best > 0)
    .map((row) => row.cost / row.best - 1)
    .sort((left, right) => left - right);
  const summary = {
    instances: rows.length,
    seconds: wishes.seconds,
    against: wishes.against,
    cost,
    best,
    sumGap: best > 0 ? cost / best - 1 : 0,
    meanGap: gaps.reduce((sum, gap) => sum + gap, 0) / Math.max(gaps.length, 1),
    medianGap: gaps[gaps.length >> 1] ?? 0,
    zeroFound: rows.filter((row) => row.best === 0 && row.cost === 0).length,
    zeroKnown: rows.filter((row) => row.best === 0).length,
  };
  if (wishes.json) return JSON.stringify({ summary, rows });
  return [
    ...rows.map((row) => `${row.name}: ${row.cost}, best known ${row.best}`),
    `${rows.length} instances, ${wishes.seconds} s ${wishes.cpu ? 'of the processor ' : ''}each against two runs of ${wishes.against} s`,
    `sum of costs ${cost}, of the best ${best}: ${percent(summary.sumGap)} over`,
    `mean gap ${percent(summary.meanGap)}, median ${percent(summary.medianGap)}`,
    `cost 0 found in ${summary.zeroFound} of the ${summary.zeroKnown} where it is known`,
  ].join('\n');
}
