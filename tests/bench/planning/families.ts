import type { Instance } from './instance.js';

type Draw = (from: number, to: number) => number;

/** Whole numbers from a seed (mulberry32); the published recipes, our own draws. */
function drawFrom(seed: number): { whole: Draw; share: () => number } {
  let state = seed >>> 0;
  const share = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { share, whole: (from, to) => from + Math.floor(share() * (to - from + 1)) };
}

function many<T>(count: number, make: (at: number) => T): T[] {
  return Array.from({ length: count }, (_, at) => make(at));
}

/** Each combination of the values, `each` times. */
function grid(values: number[][], each: number): number[][] {
  const all = values.reduce<number[][]>(
    (rows, list) => rows.flatMap((row) => list.map((value) => [...row, value])),
    [[]],
  );
  return all.flatMap((row) => many(each, () => row));
}

/**
 * Single machine with sequence-dependent set-ups: 60 jobs, work 50..150, weights 0..10, set-ups 0..2 eta 100, due
 * dates round a mean that leaves a share tau late, within a range R of the estimated makespan. Recipe: Cicirello,
 * Weighted tardiness scheduling with sequence-dependent setups, Carnegie Mellon (2003); makespan estimate with
 * 0.4 + 10/n2 - eta/7 after Lee, Bhaskaran and Pinedo (1997), from memory.
 */
export function cicirello(seed: number, each: number): Instance[] {
  const { whole, share } = drawFrom(seed);
  const jobs = 60;
  return grid(
    [
      [0.3, 0.6, 0.9],
      [0.25, 0.75],
      [0.25, 0.75],
    ],
    each,
  ).map(([tau, range, eta], at) => {
    const packing = 0.4 + 10 / jobs ** 2 - eta! / 7;
    const makespan = jobs * (100 + packing * eta! * 100);
    const mean = makespan * (1 - tau!);
    const due = (): number =>
      share() < tau! ? mean - share() * range! * mean : mean + share() * (makespan - mean) * range!;
    return {
      name: `set-ups tau ${tau} R ${range} eta ${eta} no. ${at + 1}`,
      machines: 1,
      jobs: many(jobs, (job) => ({
        id: String(job + 1),
        release: 0,
        due: Math.round(due()),
        weight: whole(0, 10),
        processing: [whole(50, 150)],
      })),
      setup: [many(jobs + 1, () => many(jobs, () => whole(0, 2 * Math.round(eta! * 100))))],
    };
  });
}

/**
 * Single machine without set-ups: 100 jobs, work 1..100, weights 1..10, due dates from
 * P (1 - TF - RDD/2) to P (1 - TF + RDD/2). Recipe: OR-Library, weighted tardiness (Beasley 1990).
 */
export function weightedTardiness(seed: number, each: number): Instance[] {
  const { whole } = drawFrom(seed);
  const fifths = [0.2, 0.4, 0.6, 0.8, 1];
  return grid([fifths, fifths], each).map(([range, tight], at) => {
    const work = many(100, () => whole(1, 100));
    const weights = many(100, () => whole(1, 10));
    const total = work.reduce((sum, minutes) => sum + minutes, 0);
    const from = Math.round(total * (1 - tight! - range! / 2));
    const to = Math.round(total * (1 - tight! + range! / 2));
    return {
      name: `no set-ups RDD ${range} TF ${tight} no. ${at + 1}`,
      machines: 1,
      jobs: work.map((minutes, job) => ({
        id: String(job + 1),
        release: 0,
        due: Math.max(whole(from, to), 0),
        weight: weights[job]!,
        processing: [minutes],
      })),
    };
  });
}

/**
 * Unrelated machines with set-ups: work 1..99, set-ups 1..9, 1..49, 1..99 or 1..124 per machine. Recipe: Vallada and
 * Ruiz, European Journal of Operational Research 211 (2011), from memory; it has no due dates, so weights 1..10 and
 * due dates as in the weighted tardiness recipe are drawn over the mean load of a machine.
 */
export function unrelatedMachines(seed: number, each: number): Instance[] {
  const { whole } = drawFrom(seed);
  return grid([[50], [3, 5], [9, 49, 99, 124], [0.4, 0.8]], each).map(
    ([jobs, machines, setupMax, tight], at) => {
      const load = (jobs! / machines!) * (35 + setupMax! / 4);
      const due = (): number =>
        Math.max(0, whole(Math.round(load * (0.7 - tight!)), Math.round(load * (1.3 - tight!))));
      return {
        name: `${machines} machines set-ups to ${setupMax} TF ${tight} no. ${at + 1}`,
        machines: machines!,
        jobs: many(jobs!, (job) => ({
          id: String(job + 1),
          release: 0,
          due: due(),
          weight: whole(1, 10),
          processing: many(machines!, () => whole(1, 99)),
        })),
        setup: many(machines!, () => many(jobs! + 1, () => many(jobs!, () => whole(1, setupMax!)))),
      };
    },
  );
}
