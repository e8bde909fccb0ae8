import path from 'node:path';
import { Worker } from 'node:worker_threads';
import { projectRoot } from '../project-root.js';
import type { OrderMessage, OrderTask } from './order-messages.js';

/** A thread runs compiled files only, also where the service itself runs from its sources. */
const compiledWorker = path.join(projectRoot, 'apps/api/dist/tasks/order-worker.js');
/** Enough for the largest plan that is searched; the service itself stays small. */
const memoryMb = 256;

export interface OrderListener {
  told(message: OrderMessage): void;
  /** The thread died; nothing more comes. */
  broke(error: Error): void;
}

export interface OrderThread {
  /** Gives the thread its one task. */
  begin(task: OrderTask, listener: OrderListener): void;
  /** Ends the thread at once; resolves when it is gone. Nothing is told any more. */
  end(): Promise<void>;
}

/** Starts a thread for one search; it loads its code while its task is still being prepared. */
export function startOrderThread(workerFile = compiledWorker): OrderThread {
  const worker = new Worker(workerFile, {
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: memoryMb },
  });
  let over = false;
  let broken: Error | null = null;
  let listener: OrderListener | null = null;
  const breakOff = (error: Error): void => {
    if (over) return;
    over = true;
    broken = error;
    listener?.broke(error);
  };
  worker.on('message', (message: OrderMessage) => {
    if (over) return;
    over = message.kind !== 'found';
    listener?.told(message);
  });
  worker.on('error', breakOff);
  worker.on('exit', (code) => breakOff(new Error(`the search ended by itself with code ${code}`)));
  return {
    begin(task, heardBy) {
      listener = heardBy;
      if (broken === null) worker.postMessage(task);
      else heardBy.broke(broken);
    },
    async end() {
      over = true;
      await worker.terminate();
    },
  };
}
