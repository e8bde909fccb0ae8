import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { evaluateOrder, layOut, type PlanProblem } from '@tackboard/calc';
import { caller, type Caller } from './caller.js';
import { figuresOf, timeOf, timeOfAsync, type Figures } from './figures.js';
import { startServer } from './server.js';
import { dice } from './shop/dice.js';
import { makeShop } from './shop/make-shop.js';
import { eightCells } from './shop/size.js';

export interface OrderFigures {
  /** Median of checking the problem and laying it out, once for all orders that are asked about, in ms. */
  readonly layOutMs: number;
  /** Median of walking and costing all run queues once, in ms. */
  readonly evaluateMs: number;
  /** From the request to the first order that can be read, the slowest of some. */
  readonly firstProposalMs: number;
  /** Board and card reads of the service while it has nothing else to do, and while it searches. */
  readonly idle: Figures;
  readonly searching: Figures;
  /** The 99th percentile while searching over the one without. */
  readonly ratio: number;
}

export const orderTargets = { evaluateMs: 2, firstProposalMs: 1500, ratio: 1.5 } as const;
export const orderCells = eightCells.cells;
export const orderSteps = eightCells.waiting;

const rounds = 10;
/** Of boards and of cards alike, in each round idle and searching. */
const readsPerRound = 40;

/** Run queues with calendars and set-ups, invented. */
function problem(): PlanProblem {
  const { whole } = dice(7);
  const steps = Array.from({ length: orderSteps }, (_, at) => ({
    ...{ id: `s${at}`, customer: `c${at % 12}`, weight: 1, releaseMin: 0 },
    dueMin: whole(0, 20 * 1440),
    processingMin: Array.from({ length: orderCells }, (_each, cell) =>
      cell % 2 === at % 2 ? whole(30, 300) : null,
    ),
  }));
  const setupMin = Array.from({ length: orderCells }, () =>
    Array.from({ length: orderSteps + 1 }, () =>
      Array.from({ length: orderSteps }, () => whole(0, 45)),
    ),
  );
  const hours = Array.from({ length: 200 }, (_, day) => ({
    ...{ fromMin: day * 1440, toMin: day * 1440 + 900 },
  }));
  const cells = Array.from({ length: orderCells }, (_, at) => ({
    ...{ id: `cell ${at}`, freeFromMin: 0, hours },
  }));
  return { cells, steps, setupMin };
}

function evaluating(): Pick<OrderFigures, 'layOutMs' | 'evaluateMs'> {
  const asked = problem();
  const lanes = asked.cells.map((_, cell) =>
    asked.steps.flatMap(({ id }, at) =>
      at % 2 === cell % 2 && (at >> 1) % (orderCells / 2) === cell >> 1 ? [id] : [],
    ),
  );
  const layOutOnce = () => {
    const known = layOut(asked);
    if (!known.ok) throw new Error(known.refusal.allowed);
    return known.laidOut;
  };
  const laidOut = layOutOnce();
  const walkOnce = () => {
    const answer = evaluateOrder({ problem: laidOut, lanes });
    if (!answer.ok) throw new Error(answer.refusal.allowed);
  };
  const medianOf = (act: () => void) => {
    for (let warm = 0; warm < 20; warm += 1) act();
    return figuresOf(Array.from({ length: 100 }, () => timeOf(act))).p50Ms;
  };
  return { layOutMs: medianOf(layOutOnce), evaluateMs: medianOf(walkOnce) };
}

/** The order of work in a shop of eight cells with 400 steps in their queues. */
export async function orderOfWork(where: {
  readonly root: string;
  readonly folder: string;
  readonly say: (line: string) => void;
}): Promise<OrderFigures> {
  const data = path.join(where.folder, 'order-of-work');
  mkdirSync(data, { recursive: true });
  where.say(`making a shop of ${orderCells} cells with ${orderSteps} steps waiting`);
  const base = await makeShop(path.join(data, 'tackboard.sqlite'), eightCells);
  const server = await startServer({ root: where.root, data, timeZone: 'Europe/Berlin' });
  const manager = caller(server.port, base.manager.cookie);
  try {
    where.say('measuring reads while an order of work is looked for');
    const measured = await measure(manager);
    const ratio = Math.round((measured.searching.p99Ms / measured.idle.p99Ms) * 100) / 100;
    return { ...evaluating(), ...measured, ratio };
  } finally {
    manager.close();
    await server.end('SIGTERM');
  }
}

interface Proposal {
  readonly id: string;
  readonly state: string;
  readonly round: number;
}

async function measure(manager: Caller) {
  const board = JSON.parse(await manager.ok('GET', '/api/board')) as {
    lanes: { steps: { id: string }[] }[];
  };
  const steps = board.lanes.flatMap((lane) => lane.steps.map(({ id }) => id));
  const reads = readsOf(manager, steps);
  await reads(20);
  const times = { idle: [] as number[], searching: [] as number[] };
  const firstMs: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    times.idle.push(...(await reads(readsPerRound)));
    const { id, tookMs } = await begin(manager);
    firstMs.push(tookMs);
    times.searching.push(...(await reads(readsPerRound)));
    const { state } = await read(manager, id);
    if (state !== 'searching') throw new Error(`The search was ${state} before the reads were.`);
    await manager.ok('POST', `/api/proposals/${id}/stop`);
    // The thread is ended beside the reads; what it still frees belongs to neither side.
    await pause(200);
  }
  return {
    firstProposalMs: Math.round(Math.max(...firstMs)),
    idle: figuresOf(times.idle),
    searching: figuresOf(times.searching),
  };
}

/** A board and a card in turn, as two screens ask for them. */
function readsOf(manager: Caller, steps: readonly string[]) {
  let at = 0;
  return async (count: number): Promise<number[]> => {
    const times: number[] = [];
    for (let turn = 0; turn < count; turn += 1) {
      const step = steps[(at += 7) % steps.length];
      times.push(await timeOfAsync(async () => manager.ok('GET', '/api/board')));
      times.push(await timeOfAsync(async () => manager.ok('GET', `/api/job-steps/${step}/card`)));
    }
    return times;
  };
}

async function begin(manager: Caller): Promise<{ id: string; tookMs: number }> {
  const startMs = performance.now();
  const { id } = JSON.parse(await manager.ok('POST', '/api/proposals')) as Proposal;
  for (;;) {
    const { round, state } = await read(manager, id);
    if (round > 0) return { id, tookMs: performance.now() - startMs };
    if (state !== 'searching') throw new Error(`The search ended as ${state} without an order.`);
    await pause(10);
  }
}

async function read(manager: Caller, id: string): Promise<Proposal> {
  return JSON.parse(await manager.ok('GET', `/api/proposals/${id}`)) as Proposal;
}
