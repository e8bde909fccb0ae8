import { performance } from 'node:perf_hooks';
import { countAnew, countFor } from './switches.mjs';

/**
 * Runs every test once without a change, then those that are quick enough once more with each change that is met
 * counted. By the number of the change: the files that meet it while they load (`loadedBy`), the tests that meet it
 * (`reachedBy`, as file and test) and how often (`hits`). By file: the milliseconds of each test (`msOf`), Infinity
 * for one that is too slow and left out.
 */
export async function dryRun(files, counted, slowestMs) {
  const plan = {
    loadedBy: {},
    reachedBy: {},
    hits: {},
    msOf: [],
    failed: [],
    tests: 0,
    leftOut: 0,
  };
  const startedAt = performance.now();
  for (const [at, { gather }] of files.entries()) {
    const { list, meets } = gather();
    const times = meets ? await timesOf(list, plan.failed) : [];
    plan.msOf[at] = times.map((ms) => (ms > slowestMs ? Infinity : ms));
    plan.tests += times.length;
    plan.leftOut += times.filter((ms) => ms > slowestMs).length;
    if (meets) await count(plan, counted[at], at);
  }
  return { ...plan, ms: performance.now() - startedAt };
}

async function timesOf(list, failed) {
  const times = [];
  for (const { name, run } of list) {
    const startedAt = performance.now();
    try {
      await run();
    } catch (error) {
      failed.push(`${name}: ${error.message}`);
    }
    times.push(performance.now() - startedAt);
  }
  return times;
}

async function count(plan, { gather }, at) {
  const met = countAnew();
  const { list } = gather();
  for (const id of Object.keys(met.static)) (plan.loadedBy[id] ??= []).push(at);
  for (const [test, { run }] of list.entries()) {
    if (plan.msOf[at][test] === Infinity) continue;
    countFor(test);
    // What fails here has failed before, and stands among the failed.
    await Promise.resolve()
      .then(run)
      .catch(() => undefined);
    for (const [id, times] of Object.entries(met.perTest[test] ?? {})) {
      (plan.reachedBy[id] ??= []).push([at, test]);
      plan.hits[id] = (plan.hits[id] ?? 0) + times;
    }
  }
}
