import { performance } from 'node:perf_hooks';
import process from 'node:process';
import { evaluateOrder, searchOrder } from '@tackboard/calc';
import { problemOf, type Instance } from './instance.js';

export interface Solved {
  name: string;
  /** Weighted tardiness, recomputed from the order alone. */
  cost: number;
  /** Job ids per machine, in the order in which they run. */
  order: string[][];
  proven: boolean;
  seconds: number;
}

/** Milliseconds of the wall, or of the processor: a machine with other work gives the search only a part of the wall. */
function clockOf(cpu: boolean): () => number {
  if (!cpu) return () => performance.now();
  return () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
}

/**
 * Searches one instance and reads its order each time that so many `seconds` of the clock are over, rising; throws with
 * the reason when it cannot be planned.
 */
export function solve(
  instance: Instance,
  { seconds, seed, cpu }: { seconds: readonly number[]; seed: number; cpu: boolean },
): Solved[] {
  const now = clockOf(cpu);
  const begin = now();
  const problem = problemOf(instance);
  const begun = searchOrder({ problem, seed });
  if (!begun.ok) throw new Refusal(instance.name, begun.refusal);
  const { search } = begun;
  return seconds.map((mark) => {
    while (!search.isProven() && now() < begin + mark * 1000) search.improve();
    const order = search.lanesSoFar();
    const checked = evaluateOrder({ problem, lanes: order });
    if (!checked.ok) throw new Refusal(instance.name, checked.refusal);
    return {
      name: instance.name,
      cost: checked.cost,
      order,
      proven: search.isProven(),
      seconds: Math.round(now() - begin) / 1000,
    };
  });
}

/** An instance that cannot be planned, in words. */
export class Refusal extends Error {
  constructor(name: string, refusal: { argument: string; given: unknown; allowed: string }) {
    super(`"${name}", ${refusal.argument}: ${refusal.allowed}`);
  }
}
