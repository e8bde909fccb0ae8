import { cicirello, unrelatedMachines, weightedTardiness } from './families.js';
import { measure } from './measure.js';
import type { Instance } from './instance.js';
import { FileTrouble, readInstances } from './read.js';
import { Refusal, solve } from './solve.js';

export interface Wishes {
  file: string | null;
  family: string | null;
  /** Instances of each combination of the family's values. */
  each: number;
  /** Which share of the family is measured, and of how many: its instances are dealt out in turn. */
  part: number;
  parts: number;
  /** When an order is read, rising; a file is read once. */
  seconds: number[];
  /** Seconds of each longer run that the family is measured against, and how many of them. */
  against: number;
  runs: number;
  seed: number;
  /** Counts seconds of the processor, not of the wall. */
  cpu: boolean;
  json: boolean;
}

const families: Record<string, (seed: number, each: number) => Instance[]> = {
  cicirello,
  tardiness: weightedTardiness,
  machines: unrelatedMachines,
};

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}

function solveFile(path: string, wishes: Wishes): void {
  const solved = readInstances(path).flatMap((instance) => solve(instance, wishes));
  if (wishes.json) {
    const [seconds] = wishes.seconds;
    const instances = solved.map(({ name, cost, order }) => ({ name, cost, order }));
    print(JSON.stringify({ seconds, seed: wishes.seed, instances }));
    return;
  }
  for (const { name, cost, order, proven, seconds } of solved) {
    print(`${name}: cost ${cost}${proven ? ' (proven best)' : ''}, ${seconds} s`);
    order.forEach((lane, at) => print(`  machine ${at + 1}: ${lane.join(' ')}`));
  }
}

/** Solves a file's instances, or measures a published family; a reason in words when it cannot. */
export function benchPlanning(wishes: Wishes): { trouble: string | null } {
  try {
    if (wishes.file !== null) solveFile(wishes.file, wishes);
    else {
      const family = families[wishes.family ?? ''];
      if (!family) {
        return {
          trouble: `The family is one of ${Object.keys(families).join(', ')}; "${wishes.family}" was given.`,
        };
      }
      const instances = family(wishes.seed, wishes.each);
      const share = instances.filter((_, at) => at % wishes.parts === wishes.part - 1);
      print(measure(share, wishes));
    }
  } catch (error) {
    if (error instanceof FileTrouble || error instanceof Refusal) return { trouble: error.message };
    throw error;
  }
  return { trouble: null };
}
