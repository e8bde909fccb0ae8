import type {
  CellView,
  FirstPieceTask,
  ReplyOf,
  Run,
  cells as cellRoutes,
} from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { sizesAsDrawn } from '../support/make-batch.js';
import { signInByPin, startAsShown } from './steps/welder.js';
import { startBadNetwork, type BadNetwork, type Fate } from './support/bad-network.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { actAt, emptySlip, offered, write, type CellAct, type Slip } from './support/cell-hands.js';
import { ask, openAs, openTablet, pinOf } from './support/demo-people.js';
import { button, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

const sequences = 200;
const longestMs = 600_000;
/** A busy machine takes a second for an act, and a tablet waits up to 15 s before it tries again. */
const longestSendMs = 120_000;
/** After so many sequences the network is good for a while, and the server is asked what it holds. */
const calmAfter = 20;
const actsEach = 3;

let tool: Tool;
let browser: Browser;
let network: BadNetwork;

/** A tablet at its cell, the one who works there, and the slip of paper beside it. */
interface Bench {
  readonly screen: Screen;
  readonly page: Page;
  readonly runId: string;
  readonly slip: Slip;
}

const benches: Bench[] = [];

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  network = await startBadNetwork(tool.address);
  benches.push(await benchAt('R1', 'O03'), await benchAt('M1', 'W03'));
});

afterAll(async () => {
  await browser?.close();
  await network?.close();
  await tool?.stop();
});

async function benchAt(cellCode: string, person: string): Promise<Bench> {
  const pin = await pinOf(browser, person, network.address);
  const options = { address: network.address, size: tabletSize };
  const screen = await openTablet(browser, cellCode, options);
  const { page } = screen;
  await page.goto('/');
  await signInByPin(page, new RegExp(person), pin);
  await press(page, 'Pull');
  await startAsShown(page);
  const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
  const cellId = cells.find(({ code }) => code === cellCode)?.id ?? cellCode;
  const view = await ask<CellView>(page, 'GET', `/api/cells/${cellId}/view`);
  const runId = view.held?.step.holder?.runId ?? '';
  const task = await ask<FirstPieceTask>(page, 'GET', `/api/runs/${runId}/first-piece`);
  if (!task.passed) {
    await ask(page, 'POST', `/api/runs/${runId}/first-piece`, {
      ...{ sizes: sizesAsDrawn(task), visual: 'accepted' },
    });
  }
  await keptByBrowser(page);
  return { screen, page, runId, slip: emptySlip() };
}

/** From here on the page opens without network. */
async function keptByBrowser(page: Page): Promise<void> {
  await page.evaluate(async () => navigator.serviceWorker.ready);
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await button(page, 'Good +1').waitFor();
}

/** Numbers that look like chance and are the same each time: mulberry32, a generator in the public domain. */
function chanceFrom(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * below);
  };
}

type Weather = 'good' | 'slow' | 'cut' | 'off' | 'broken';
const weathers = ['good', 'slow', 'cut', 'off', 'broken', 'broken'] as const;
const brokenFates = ['ok', 'lostRequest', 'lostAnswer', 'fault', 'faultAfter', 'slow'] as const;

/** One network for both tablets: what it does to a request is drawn anew each time. */
async function setWeather(weather: Weather, chance: (below: number) => number): Promise<void> {
  network.fate = (): Fate => {
    if (weather === 'cut') return 'lostRequest';
    if (weather === 'broken') return brokenFates[chance(brokenFates.length)] ?? 'ok';
    return weather === 'slow' ? 'slow' : 'ok';
  };
  for (const { screen } of benches) await screen.context.setOffline(weather === 'off');
}

const doings = ['good', 'good', 'good', 'rework', 'scrap', 'stop', 'goOn', 'goOn'] as const;

function anyAct(chance: (below: number) => number, at: string): CellAct {
  const drawn = chance(doings.length + 3);
  const plain = doings[drawn];
  if (plain !== undefined) return { do: plain };
  if (drawn === doings.length) return { do: 'reading', currentA: 200 + chance(80) };
  if (drawn === doings.length + 1) return { do: 'note', text: `Line ${at}` };
  return { do: chance(3) === 0 ? 'reload' : 'good' };
}

async function sequenceAt({ page, slip }: Bench, name: string, chance: (n: number) => number) {
  for (let act = actsEach; act > 0; act -= 1) {
    const next = anyAct(chance, `${name}-${act}`);
    if (!offered(slip, next)) continue;
    write(slip, next);
    await actAt(page, next, slip);
  }
}

/** The radio comes back: everything that waits goes out. */
async function allSent({ page }: Bench): Promise<void> {
  const waits = page.getByText(/Waiting to send:/);
  try {
    await waits.waitFor({ state: 'detached', timeout: longestSendMs });
  } catch {
    throw new Error(`It still waits. The page says: ${await page.locator('body').innerText()}`);
  }
}

async function onServer({ runId }: Bench) {
  const manager = await openAs(browser, 'M01', { address: tool.address });
  const run = await ask<Run>(manager.page, 'GET', `/api/runs/${runId}`);
  await manager.close();
  return {
    ...{ good: run.goodCount, rework: run.reworkCount, scrap: run.scrapCount },
    stops: run.stops.length,
    standing: run.stops.some(({ endedAt }) => endedAt === null),
    readings: run.readings.map(({ currentA }) => currentA ?? 0),
    notes: run.handOverNote === null ? [] : run.handOverNote.split('\n'),
  };
}

async function expectAsOnPaper(): Promise<void> {
  for (const bench of benches) {
    await allSent(bench);
    expect(await bench.page.getByText('The server did not take this').count()).toBe(0);
    expect(await onServer(bench)).toEqual(bench.slip);
  }
}

describe('two tablets and a radio that fails in every way, against a slip of paper', () => {
  it(
    `loses and doubles nothing in ${sequences} sequences by the buttons`,
    async () => {
      const chance = chanceFrom(20_261_128);
      for (let round = 0; round < sequences / 2; round += 1) {
        await setWeather(weathers[chance(weathers.length)] ?? 'good', chance);
        // Each tablet draws from its own chance, so that what it does is not up to which one is faster.
        const own = benches.map((_, at) => chanceFrom(1_000 * round + at));
        await Promise.all(
          benches.map(async (bench, at) => sequenceAt(bench, `${round}`, own[at] ?? chance)),
        );
        if (round % calmAfter !== calmAfter - 1) continue;
        // A tablet hears that the radio is back; nobody waits for the next try.
        await setWeather('off', chance);
        await setWeather('good', chance);
        await expectAsOnPaper();
      }
    },
    longestMs,
  );

  it(
    'loses and doubles nothing when the server is killed while the tablets send',
    async () => {
      const chance = chanceFrom(7);
      for (let round = 0; round < 2; round += 1) {
        await setWeather('off', chance);
        for (const bench of benches) await sequenceAt(bench, `kill ${round}`, chance);
        await setWeather('slow', chance);
        const working = benches.map(async (bench) => sequenceAt(bench, `dead ${round}`, chance));
        await tool.kill();
        await Promise.all(working);
        tool = await startTool({ on: tool.folder });
        network.server = tool.address;
        await setWeather('off', chance);
        await setWeather('good', chance);
        await expectAsOnPaper();
      }
    },
    longestMs,
  );
});
