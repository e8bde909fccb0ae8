/** The thread that looks for the test pieces that would pay. It reads no database and ends with its answer. */
import { parentPort, workerData } from 'node:worker_threads';
import { candidateTests, testBook } from '@tackboard/calc';
import { chooseSets } from './choose-sets.js';
import type { TestsFound, TestsTask } from './tests-messages.js';

async function found(task: TestsTask): Promise<TestsFound> {
  const { welds, conditions, budget, limitMs } = task;
  const book = testBook(task);
  if (book === null) throw new Error(`there are no rules for ${task.code}:${task.edition}`);
  const { tests, notHeld } = candidateTests({ book, conditions, welds });
  const sets = tests.map((test) => test.welds);
  const choices = await chooseSets({ problem: { places: welds.length, sets }, budget, limitMs });
  return { tests, notHeld, ...choices };
}

parentPort?.postMessage(await found(workerData as TestsTask));
