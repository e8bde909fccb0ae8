/** The thread that looks for a better order of work. It reads no database and is ended from outside. */
import { parentPort, workerData } from 'node:worker_threads';
import { searchOrder } from '@tackboard/calc';
import { foundOrder } from '../planning/found-order.js';
import { setUpTable } from '../planning/set-up-table.js';
import type { OrderMessage, OrderTask } from './order-messages.js';

/** Better orders come in quick succession at first; nobody reads faster than this. */
const leastPauseMs = 300;

function tell(message: OrderMessage): void {
  parentPort?.postMessage(message);
}

function search({ plan, seed, limitMs }: OrderTask): void {
  const endAt = performance.now() + limitMs;
  const setupMin = setUpTable(plan);
  const begun = searchOrder({ problem: { ...plan.problem, setupMin }, seed });
  if (!begun.ok) return tell({ kind: 'refused', refusal: begun.refusal });
  const { search: order } = begun;
  let told = { cost: Infinity, proven: false };
  let nextAt = 0;
  const tellBetter = (): void => {
    const sentAt = performance.now();
    const answer = foundOrder(plan, setupMin, order.lanesSoFar());
    if (!answer.ok) throw new Error(answer.refusal.allowed);
    told = { cost: order.costSoFar(), proven: order.isProven() };
    tell({ kind: 'found', found: answer.found, proven: told.proven, notes: order.notes });
    // Explaining must never take more than a part of the time for searching.
    nextAt = sentAt + Math.max(leastPauseMs, 3 * (performance.now() - sentAt));
  };
  tellBetter();
  while (!order.isProven() && performance.now() < endAt) {
    order.improve();
    if (order.costSoFar() < told.cost && performance.now() >= nextAt) tellBetter();
  }
  if (order.costSoFar() < told.cost || order.isProven() !== told.proven) tellBetter();
  tell({ kind: 'ended' });
}

search(workerData as OrderTask);
