import { performance } from 'node:perf_hooks';
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

/** Searches one instance for at most `seconds` of the clock; throws with the reason when it cannot be planned. */
export function solve(
  instance: Instance,
  { seconds, seed }: { seconds: number; seed: number },
): Solved {
  const begin = performance.now();
  const problem = problemOf(instance);
  const begun = searchOrder({ problem, seed });
  if (!begun.ok) throw new Refusal(instance.name, begun.refusal);
  const end = begin + seconds * 1000;
  const { search } = begun;
  while (!search.isProven() && performance.now() < end) search.improve();
  const order = search.lanesSoFar();
  const checked = evaluateOrder({ problem, lanes: order });
  if (!checked.ok) throw new Refusal(instance.name, checked.refusal);
  return {
    name: instance.name,
    cost: checked.cost,
    order,
    proven: search.isProven(),
    seconds: Math.round(performance.now() - begin) / 1000,
  };
}

/** An instance that cannot be planned, in words. */
export class Refusal extends Error {
  constructor(name: string, refusal: { argument: string; given: unknown; allowed: string }) {
    super(`"${name}", ${refusal.argument}: ${refusal.allowed}`);
  }
}
