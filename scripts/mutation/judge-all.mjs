import { Worker } from 'node:worker_threads';
import { Stop, say } from '../preparation/run.mjs';

/** So many of the changes, spread over all files in the same way every time. */
export function evenly(changes, count) {
  if (count >= changes.length) return changes;
  const stride = 7919;
  return changes.filter((_, at) => (at * stride) % changes.length < count);
}

/**
 * Tries each change in one worker and gives the changes with their fate: `noticed` (by which test), `endless` (the
 * worker had to be ended), `survived` or `not reached`. A worker that was ended is followed by a fresh one.
 */
export function judgeAll(changes, job) {
  const judged = [];
  let plan = null;
  return new Promise((resolve, reject) => {
    const start = () => {
      const worker = new Worker(new URL('./worker.mjs', import.meta.url), {
        workerData: { ...job, plan },
      });
      let timer;
      const settle = (fate) => {
        clearTimeout(timer);
        judged.push({ ...changes[judged.length], ...fate });
        if (judged.length % 250 === 0) say(`${judged.length} of ${changes.length} tried`);
      };
      const giveUp = async (fate) => {
        worker.removeAllListeners();
        await worker.terminate();
        settle(fate);
        start();
      };
      const next = async () => {
        const change = changes[judged.length];
        if (change === undefined) {
          await worker.terminate();
          return resolve(judged);
        }
        timer = setTimeout(() => giveUp({ fate: 'endless' }), patienceMs(plan, change.id));
        worker.postMessage(change.id);
      };
      worker.on('message', (message) => {
        if (message.fate !== undefined) settle(message);
        if (plan === null) {
          plan = message.plan;
          const failed = saidOf(plan);
          if (failed !== null) return worker.terminate().then(() => reject(failed));
        }
        return next();
      });
      worker.on('error', (error) =>
        plan === null ? reject(error) : giveUp({ fate: 'noticed', by: `crash: ${error.message}` }),
      );
    };
    start();
  });
}

/** Says how the tests ran without a change; what is wrong with them, if anything. */
function saidOf({ tests, leftOut, failed, ms }) {
  say(`${tests} tests unchanged in ${Math.round(ms / 1000)} s, ${leftOut} too slow and left out`);
  return failed.length === 0
    ? null
    : new Stop(`Without a change these tests fail already:\n${failed.join('\n')}`);
}

/** Half a minute beyond five times what the tests of the change took unchanged. */
function patienceMs({ reachedBy, loadedBy, msOf }, id) {
  const ofTests = (reachedBy[id] ?? []).map(([at, test]) => msOf[at][test]);
  const ofFiles = (loadedBy[id] ?? []).flatMap((at) => msOf[at]).filter(Number.isFinite);
  return 30_000 + 5 * [...ofTests, ...ofFiles].reduce((sum, ms) => sum + ms, 0);
}
