import { performance } from 'node:perf_hooks';
import { countAnew, countFor } from './switches.mjs';

/**
 * Runs every test once without a change. By the number of the change: the files that meet it while they load
 * (`loadedBy`), the tests that meet it (`reachedBy`, as file and test) and how often (`hits`). By file: the
 * milliseconds of each test (`msOf`), Infinity for one that is too slow and left out.
 */
export async function dryRun(files, slowestMs) {
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
    const met = countAnew();
    const { list, meets } = gather();
    plan.msOf[at] = [];
    if (!meets) continue;
    for (const id of Object.keys(met.static)) (plan.loadedBy[id] ??= []).push(at);
    plan.msOf[at] = await timesOf(list, plan.failed);
    plan.tests += list.length;
    for (const [test, ms] of plan.msOf[at].entries()) {
      if (ms > slowestMs) {
        plan.leftOut += 1;
        plan.msOf[at][test] = Infinity;
      } else {
        addMet(plan, met.perTest[test] ?? {}, [at, test]);
      }
    }
  }
  return { ...plan, ms: performance.now() - startedAt };
}

async function timesOf(list, failed) {
  const times = [];
  for (const [test, { name, run }] of list.entries()) {
    countFor(test);
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

function addMet(plan, met, where) {
  for (const [id, times] of Object.entries(met)) {
    (plan.reachedBy[id] ??= []).push(where);
    plan.hits[id] = (plan.hits[id] ?? 0) + times;
  }
}
