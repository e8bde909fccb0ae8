import path from 'node:path';
import { Worker } from 'node:worker_threads';
import { projectRoot } from '../project-root.js';
import type { TestsFound, TestsTask } from './tests-messages.js';

/** A thread runs compiled files only, also where the service itself runs from its sources. */
const compiledWorker = path.join(projectRoot, 'apps/api/dist/tasks/tests-worker.js');
const memoryMb = 256;

export interface RunningTests {
  /** Null where the thread was ended before it had an answer. */
  readonly answer: Promise<TestsFound | null>;
  /** Ends the thread; resolves when it is gone. */
  end(): Promise<void>;
}

/** Looks for test pieces in a thread of its own, which is gone when the answer is there. */
export function startTests(task: TestsTask, workerFile = compiledWorker): RunningTests {
  const worker = new Worker(workerFile, {
    workerData: task,
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: memoryMb },
  });
  let found: TestsFound | null = null;
  let ended = false;
  const answer = new Promise<TestsFound | null>((resolve, reject) => {
    worker.on('message', (message: TestsFound) => {
      found = message;
    });
    worker.on('error', reject);
    worker.on('exit', (code) => {
      if (found !== null || ended) resolve(found);
      else reject(new Error(`the search ended by itself with code ${code}`));
    });
  });
  return {
    answer,
    async end() {
      ended = true;
      await worker.terminate();
    },
  };
}
