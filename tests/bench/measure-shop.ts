import { copyFileSync, mkdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { caller } from './caller.js';
import { figuresOf, timeOf, timeOfAsync, type Figures } from './figures.js';
import { hearStatements } from './hear.js';
import { callsOf, operations, type OperationName } from './operations.js';
import { rawPull } from './raw-pull.js';
import { startServer } from './server.js';
import type { ShopBase } from './shop/base.js';
import { makeShop } from './shop/make-shop.js';
import type { ShopSize } from './shop/size.js';
import { rawRunner } from './statements.js';

export interface Compared {
  readonly api: Figures;
  readonly raw: Figures;
  /** Median against median. */
  readonly ratio: number;
  readonly target: number;
  readonly statements: number;
}

export interface MeasuredShop {
  readonly size: ShopSize;
  readonly fileMb: number;
  readonly makingS: number;
  readonly operations: Record<OperationName, Compared>;
  readonly peakMb: number | null;
}

export interface Where {
  readonly root: string;
  readonly folder: string;
  readonly say: (line: string) => void;
}

const fileIn = (data: string) => path.join(data, 'tackboard.sqlite');
const timeZone = 'Europe/Berlin';
const turns = { warmUp: 40, measured: 200 };
const screensAtOnce = 50;

/** Makes a shop, starts the service on it and measures it turn by turn with the raw SQL on a copy of the file. */
export async function measureShop(size: ShopSize, { root, folder, say }: Where) {
  const name = `${size.years}-year`;
  const [served, raw, heard] = ['served', 'raw', 'heard'].map((part) => {
    const data = path.join(folder, `${name}-${part}`);
    mkdirSync(data, { recursive: true });
    return data;
  }) as [string, string, string];
  say(`making a shop of ${size.years} years`);
  const startedAt = performance.now();
  const base = await makeShop(fileIn(served), size);
  const makingS = Math.round((performance.now() - startedAt) / 100) / 10;
  for (const copy of [raw, heard]) copyFileSync(fileIn(served), fileIn(copy));
  const fileMb = Math.round(statSync(fileIn(served)).size / 1e5) / 10;
  say(`made in ${makingS} s, ${fileMb} MB; measuring`);
  const side = await rawSide({ heard, raw }, base);
  const server = await startServer({ root, data: served, timeZone });
  const manager = caller(server.port, base.manager.cookie);
  const welder = caller(server.port, base.welder.cookie);
  try {
    const calls = callsOf({ manager, welder }, base);
    const change = async () => calls.putDown(await calls.pull());
    const anew = (call: () => Promise<string>) => async () => {
      await change();
      return timeOfAsync(call);
    };
    const compared = {
      board: await compare('board', async () => timeOfAsync(calls.board), side.board),
      boardAnew: await compare('boardAnew', anew(calls.board), side.boardAnew),
      week: await compare('week', async () => timeOfAsync(calls.week), side.week),
      weekAnew: await compare('weekAnew', anew(calls.week), side.weekAnew),
      pull: await compare('pull', async () => pullOnce(calls), side.pull),
    };
    await Promise.all(Array.from({ length: screensAtOnce }, async () => calls.board()));
    const peakMb = server.peakMb();
    return { size, fileMb, makingS, operations: compared, peakMb } satisfies MeasuredShop;
  } finally {
    manager.close();
    welder.close();
    side.close();
    await server.end('SIGTERM');
  }
}

interface RawTurn {
  readonly statements: number;
  readonly once: () => number;
}

/** The statements come from one copy and run on another, which is as it was before them. */
async function rawSide(data: { heard: string; raw: string }, base: ShopBase) {
  const file = fileIn(data.raw);
  const heard = await hearStatements(data.heard, timeZone, base);
  const board = rawRunner(file, heard.board);
  const week = rawRunner(file, heard.week);
  const pull = rawPull(file, heard.pull, heard.pulled);
  const turn = (statements: readonly unknown[], once: () => number): RawTurn => ({
    statements: statements.length,
    once,
  });
  const [readBoard, readWeek] = [board, week].map((each) => () => timeOf(() => each.run())) as [
    () => number,
    () => number,
  ];
  /** A commit of another connection empties a reader's cache: here as in the service. */
  const anew = (read: () => number) => () => {
    const { run, takeBack } = pull.prepare();
    run();
    takeBack();
    return read();
  };
  return {
    board: turn(heard.board, readBoard),
    boardAnew: turn(heard.board, anew(readBoard)),
    week: turn(heard.week, readWeek),
    weekAnew: turn(heard.week, anew(readWeek)),
    pull: turn(heard.pull, () => {
      const { run, takeBack } = pull.prepare();
      const timeMs = timeOf(run);
      takeBack();
      return timeMs;
    }),
    close: () => [board, week, pull].forEach((each) => each.close()),
  };
}

async function pullOnce(calls: ReturnType<typeof callsOf>): Promise<number> {
  const startMs = performance.now();
  const pulled = await calls.pull();
  const timeMs = performance.now() - startMs;
  await calls.putDown(pulled);
  return timeMs;
}

/** Turn by turn, so that whatever else the machine does meets both alike. */
async function compare(
  name: OperationName,
  api: () => Promise<number>,
  raw: RawTurn,
): Promise<Compared> {
  const times = { api: [] as number[], raw: [] as number[] };
  for (let at = 0; at < turns.warmUp + turns.measured; at += 1) {
    const apiMs = await api();
    const rawMs = raw.once();
    if (at < turns.warmUp) continue;
    times.api.push(apiMs);
    times.raw.push(rawMs);
  }
  const figures = { api: figuresOf(times.api), raw: figuresOf(times.raw) };
  const ratio = Math.round((figures.api.p50Ms / figures.raw.p50Ms) * 100) / 100;
  const { target } = operations[name];
  return { ...figures, ratio, target, statements: raw.statements };
}
