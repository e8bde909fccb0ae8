import { parentPort, workerData } from 'node:worker_threads';
import { dryRun } from './dry-run.mjs';
import { judge } from './judge.mjs';
import { withoutCounting } from './switches.mjs';
import { testFilesOf } from './test-files.mjs';

/** Runs the tests unchanged unless that has been done, then judges one change for each message. */
const { modules, slowestMs } = workerData;
const quick = new Map([...modules].map(([name, text]) => [name, withoutCounting(text)]));
const files = testFilesOf({ ...workerData, modules: quick });
const plan = workerData.plan ?? (await dryRun(files, testFilesOf(workerData), slowestMs));
parentPort.on('message', async (id) => parentPort.postMessage(await judge(id, files, plan)));
parentPort.postMessage({ plan });
