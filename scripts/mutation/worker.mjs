import { parentPort, workerData } from 'node:worker_threads';
import { dryRun } from './dry-run.mjs';
import { judge } from './judge.mjs';
import { testFilesOf } from './test-files.mjs';

/** Runs the tests unchanged unless that has been done, then judges one change for each message. */
const files = testFilesOf(workerData);
const plan = workerData.plan ?? (await dryRun(files, workerData.slowestMs));
parentPort.on('message', async (id) => parentPort.postMessage(await judge(id, files, plan)));
parentPort.postMessage({ plan });
