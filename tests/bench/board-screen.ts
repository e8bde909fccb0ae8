import { mkdirSync } from 'node:fs';
import path from 'node:path';
import type { Board, QueuedStep } from '@tackboard/contract';
import { chromium, type Browser, type Page } from 'playwright-core';
import { caller, type Caller } from './caller.js';
import { figuresOf, type Figures } from './figures.js';
import { startServer } from './server.js';
import { makeShop } from './shop/make-shop.js';
import { eightCells } from './shop/size.js';

export interface BoardScreenFigures {
  /** From the key that moves a step until the slowest of all screens has painted it. */
  readonly repaint: Figures;
  readonly screens: number;
  /** Time from frame to frame while the board is scrolled and a card is dragged over it. */
  readonly frames: Figures;
  /** The same on a board with a tenth of the steps. */
  readonly framesFew: Figures;
  /** The 95th percentile of the frames over that of the board with few steps. */
  readonly ratio: number;
}

export const boardTargets = { repaintMs: 1000, ratio: 2 } as const;
export const boardSteps = 500;
const fewSteps = boardSteps / 10;
const rounds = 20;
const longestMs = 20_000;
const now = () => performance.timeOrigin + performance.now();
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
const quiet = ['--disable-background-networking', '--disable-component-update', '--disable-sync'];
/** Of the wheel each way, and of the card. */
const turns = Array.from({ length: 60 }, (_, at) => at);
const size = { width: 1440, height: 900 };

interface Where {
  readonly root: string;
  readonly folder: string;
  readonly say: (line: string) => void;
}

/**
 * The board of a shop of eight cells in Chromium, with 500 steps and with a tenth of them. Whoever looks on is a second
 * board and the screen of the cell; all share the processors of this machine with the service.
 */
export async function boardScreen(where: Where): Promise<BoardScreenFigures> {
  const executablePath = process.env['TACKBOARD_CHROMIUM'] ?? '/usr/bin/chromium';
  const browser = await chromium.launch({ executablePath, args: [...flags, ...quiet] });
  try {
    const few = await onBoard(where, { browser, steps: fewSteps }, async ({ boards: [board] }) =>
      framesOf(board),
    );
    return await onBoard(where, { browser, steps: boardSteps }, async (shop) => {
      where.say('moving steps and waiting for every screen');
      const repaint = figuresOf(await repaintTimes(shop));
      where.say('scrolling and dragging');
      const frames = await framesOf(shop.boards[0]);
      const ratio = Math.round((frames.p95Ms / few.p95Ms) * 100) / 100;
      return { repaint, screens: shop.boards.length + 1, frames, framesFew: few, ratio };
    });
  } finally {
    await browser.close();
  }
}

interface OpenShop {
  readonly boards: readonly [Page, ...Page[]];
  /** The screen of the first cell. */
  readonly cell: Page;
  readonly manager: Caller;
}

async function onBoard<Found>(
  { root, folder, say }: Where,
  { browser, steps }: { readonly browser: Browser; readonly steps: number },
  measure: (shop: OpenShop) => Promise<Found>,
): Promise<Found> {
  const data = path.join(folder, `board-${steps}`);
  mkdirSync(data, { recursive: true });
  say(`making a shop of ${eightCells.cells} cells with ${steps} steps waiting`);
  const { manager } = await makeShop(path.join(data, 'tackboard.sqlite'), {
    ...eightCells,
    waiting: steps,
  });
  const server = await startServer({ root, data, timeZone: 'Europe/Berlin' });
  const asked = caller(server.port, manager.cookie);
  const [name = '', value = ''] = manager.cookie.split('=');
  const open = async (at: string) => {
    const baseURL = `http://127.0.0.1:${server.port}`;
    const context = await browser.newContext({ baseURL, viewport: size, locale: 'en-GB' });
    await context.addCookies([{ name, value, url: baseURL }]);
    const page = await context.newPage();
    await page.goto(at);
    return page;
  };
  try {
    const board = JSON.parse(await asked.ok('GET', '/api/board')) as Board;
    const boards = [await open('/board'), await open('/board')] as const;
    const cell = await open(`/cell/${board.lanes[0]!.cellCode}`);
    for (const page of boards) await page.locator('[data-step]').last().waitFor();
    await cell.locator('ol > li').first().waitFor();
    return await measure({ boards: [...boards], cell, manager: asked });
  } finally {
    asked.close();
    for (const context of browser.contexts()) await context.close();
    await server.end('SIGTERM');
  }
}

async function repaintTimes({ boards, cell, manager }: OpenShop): Promise<number[]> {
  const times: number[] = [];
  const [own] = boards;
  for (let round = 0; round < rounds; round += 1) {
    const { lanes } = JSON.parse(await manager.ok('GET', '/api/board')) as Board;
    const [one, other] = neighbours(lanes);
    const orders = [...boards, cell].map(async (page) =>
      paintedAt(page, page === cell ? queueRows([other, one]) : boardCards([other, one])),
    );
    await own.locator(`[data-step="${one.id}"] a`).first().focus();
    const from = now();
    await own.keyboard.press('Alt+ArrowDown');
    times.push(Math.max(...(await Promise.all(orders))) - from);
  }
  return times;
}

/** Two steps of the first cell, of different jobs and neither of them begun: they may change places. */
function neighbours([lane]: Board['lanes']): [QueuedStep, QueuedStep] {
  const steps = lane?.steps ?? [];
  const at = steps.findIndex(
    (step, place) =>
      step.state === 'waiting' &&
      steps[place + 1]?.state === 'waiting' &&
      steps[place + 1]?.jobId !== step.jobId,
  );
  return [steps[at]!, steps[at + 1]!];
}

/** Two elements by selector and text, of which the first is to stand before the second. */
interface Order {
  readonly selector: string;
  readonly first: string;
  readonly then: string;
}

const boardCards = ([first, then]: QueuedStep[]): Order => ({
  ...{ selector: '[data-step]', first: `Job ${first!.jobNumber}`, then: `Job ${then!.jobNumber}` },
});
const queueRows = (steps: QueuedStep[]): Order => ({ ...boardCards(steps), selector: 'ol > li' });

/** When a page has painted the order, in ms since 1970. Looked at after a change alone, so that looking costs little. */
async function paintedAt(page: Page, order: Order): Promise<number> {
  return page.evaluate(
    async ({ selector, first, then, longestMs }) => {
      const at = (words: string) =>
        [...document.querySelectorAll(selector)].findIndex(({ textContent }) =>
          textContent.includes(words),
        );
      const stands = () => {
        const [one, other] = [at(first), at(then)];
        return one >= 0 && one < other;
      };
      return new Promise<number>((resolve, reject) => {
        const late = setTimeout(
          () => reject(new Error(`${first} did not come before ${then} within ${longestMs} ms.`)),
          longestMs,
        );
        const watch = new MutationObserver(() => {
          if (!stands()) return;
          watch.disconnect();
          clearTimeout(late);
          requestAnimationFrame(() => {
            // What is put into the frame is painted when the next task runs.
            setTimeout(() => resolve(performance.timeOrigin + performance.now()));
          });
        });
        watch.observe(document.body, { childList: true, subtree: true, characterData: true });
      });
    },
    { ...order, longestMs },
  );
}

/** Frames while the board is scrolled there and back and a card is dragged over the lanes and back to its place. */
async function framesOf(page: Page): Promise<Figures> {
  await page.bringToFront();
  await page.evaluate(() => {
    const keptMs: number[] = [];
    let last = performance.now();
    Object.assign(globalThis, { keptMs });
    const frame = () => {
      keptMs.push(performance.now() - last);
      last = performance.now();
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  const { mouse } = page;
  await mouse.move(size.width / 2, size.height / 2);
  for (const deltaY of [...turns.map(() => 240), ...turns.map(() => -240)])
    await mouse.wheel(0, deltaY);
  const card = page.locator('[data-step].waiting').first();
  await card.scrollIntoViewIfNeeded();
  const box = await card.boundingBox();
  if (box === null) throw new Error('No card of the board can be seen.');
  const [x, y] = [box.x + box.width / 2, box.y + 10];
  await mouse.move(x, y);
  await mouse.down();
  for (const turn of turns) await mouse.move(x + turn * 8, y + (turn % 20) * 20);
  await mouse.move(x, y);
  await mouse.up();
  const frames = await page.evaluate(() => (globalThis as unknown as { keptMs: number[] }).keptMs);
  return figuresOf(frames.slice(1));
}
