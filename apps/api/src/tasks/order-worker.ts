/** The thread that looks for a better order of work. It reads no database and is ended from outside. */
import { parentPort } from 'node:worker_threads';
import { layOut, planStepsMax, searchOrder } from '@tackboard/calc';
import { foundOrder } from '../planning/found-order.js';
import { setUpTable } from '../planning/set-up-table.js';
import { withoutIdleMoves } from '../planning/tidy.js';
import type { OrderMessage, OrderTask } from './order-messages.js';
import { giveWay } from './thread-priority.js';

/** Better orders come in quick succession at first; nobody reads faster than this. */
const leastPauseMs = 300;
/**
 * Time for leaving out moves that gain nothing, from the begin of the search for the first order, which is waited
 * for, and then from the better order on.
 */
const tidyMs = { first: 150, between: 250, last: 2_000 } as const;

function tell(message: OrderMessage): void {
  parentPort?.postMessage(message);
}

function search({ plan, seed, limitMs }: OrderTask): void {
  const begunAt = performance.now();
  // A plan that is too large is refused; its table would not fit into the memory of this thread.
  const setupMin = plan.setUps.length > planStepsMax ? [] : setUpTable(plan);
  const known = layOut({ ...plan.problem, setupMin });
  if (!known.ok) return tell({ kind: 'refused', refusal: known.refusal });
  const { laidOut: problem } = known;
  const begun = searchOrder({ problem, seed });
  if (!begun.ok) return tell({ kind: 'refused', refusal: begun.refusal });
  const { search: order } = begun;
  let told = { cost: Infinity, complete: false };
  let nextAt = 0;
  const tellBetter = (when: keyof typeof tidyMs): void => {
    const at = performance.now();
    const lateAt = (when === 'first' ? begunAt : at) + tidyMs[when];
    const isLate = () => performance.now() > lateAt;
    const lanes = withoutIdleMoves({ plan, problem, lanes: order.lanesSoFar(), isLate });
    const proven = order.isProven();
    told = { cost: order.costSoFar(), complete: proven && !isLate() };
    const answer = foundOrder(plan, problem, lanes);
    if (!answer.ok) throw new Error(answer.refusal.allowed);
    tell({ kind: 'found', found: answer.found, proven, notes: order.notes });
    // Explaining must never take more than a part of the time for searching.
    nextAt = at + Math.max(leastPauseMs, 3 * (performance.now() - at));
  };
  tellBetter('first');
  // The first order is waited for; from here on nobody is to notice that the search goes on.
  giveWay();
  while (!order.isProven() && performance.now() < begunAt + limitMs) {
    order.improve();
    if (order.costSoFar() < told.cost && performance.now() >= nextAt) tellBetter('between');
  }
  if (!told.complete) tellBetter('last');
  tell({ kind: 'ended' });
}

parentPort?.once('message', (task: OrderTask) => search(task));
