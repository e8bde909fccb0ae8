import { countAnew, switchOn } from './switches.mjs';

/** The fate of one change: the tests that meet it run, quickest first, until one fails. */
export async function judge(id, files, plan) {
  const reachedBy = plan.reachedBy[id] ?? [];
  const loadedBy = plan.loadedBy[id] ?? [];
  if (reachedBy.length + loadedBy.length === 0) return { fate: 'not reached' };
  const limit = (plan.hits[id] ?? 0) * 100 + 100_000;
  const by =
    (await failing(reachedBy, id, limit, files, plan)) ??
    (await failingAfterLoading(loadedBy, id, limit, files, plan));
  countAnew();
  return by === null ? { fate: 'survived' } : { fate: 'noticed', by };
}

const gathered = new WeakMap();

/** The tests as loaded without a change, once for all changes that lie inside functions. */
function testsOf(file) {
  if (!gathered.has(file)) {
    countAnew();
    gathered.set(file, file.gather().list);
  }
  return gathered.get(file);
}

async function failing(places, id, limit, files, { msOf }) {
  const quickestFirst = places.toSorted(([a, i], [b, k]) => msOf[a][i] - msOf[b][k]);
  for (const [at, test] of quickestFirst) {
    const found = testsOf(files[at])[test];
    switchOn(id, limit);
    if (await fails(found)) return found.name;
  }
  return null;
}

/** A change that is met while the code loads: each file that meets it is loaded anew with the change, and run whole. */
async function failingAfterLoading(places, id, limit, files, { msOf }) {
  const total = (at) => msOf[at].reduce((sum, ms) => sum + (ms === Infinity ? 0 : ms), 0);
  for (const at of places.toSorted((a, b) => total(a) - total(b))) {
    switchOn(id, limit);
    let list;
    try {
      list = files[at].gather().list;
    } catch (error) {
      return `loading ${files[at].name}: ${error.message}`;
    }
    const tests = list.map((test, k) => ({ ...test, ms: msOf[at][k] ?? 0 }));
    for (const test of tests.toSorted((a, b) => a.ms - b.ms)) {
      if (test.ms === Infinity) continue;
      if (await fails(test)) return test.name;
    }
  }
  return null;
}

async function fails({ run }) {
  try {
    await run();
    return false;
  } catch {
    return true;
  }
}
