import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { chromium, type Browser } from 'playwright-core';
import { atWork } from './cell-at-work.js';
import { taps, tapTimes, type TapTimes } from './cell-taps.js';
import { paintTimes } from './cell-paint.js';
import { figuresOf } from './figures.js';
import { startServer } from './server.js';

/** Times of one kind of tap, or of the first paint, in milliseconds. */
export interface ScreenTimes {
  readonly count: number;
  readonly p50Ms: number;
  readonly p95Ms: number;
  readonly slowestMs: number;
}

export interface CellScreenFigures {
  /** From the touch to the painted frame that shows the answer, by kind of tap, the processor four times slower. */
  readonly taps: Readonly<Record<string, ScreenTimes>>;
  /** First contentful paint of a reload that the service worker answers, at full speed. */
  readonly firstPaint: ScreenTimes;
  /** The same, the processor four times slower. */
  readonly firstPaintSlow: ScreenTimes;
}

export const cellScreenTargets = { tapMs: 100, firstPaintMs: 1000 } as const;
export const slowerBy = 4;
const tapRounds = 20;
const paintRounds = 7;
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
const quiet = ['--disable-background-networking', '--disable-component-update', '--disable-sync'];

interface Place {
  readonly root: string;
  readonly folder: string;
  readonly say: (line: string) => void;
}

/** The screen of a robot cell of the demo shop in Chromium: how long a tap waits, and the first paint of a reload. */
export async function cellScreen({ root, folder, say }: Place): Promise<CellScreenFigures> {
  const executablePath = process.env['TACKBOARD_CHROMIUM'] ?? '/usr/bin/chromium';
  if (!existsSync(executablePath))
    throw new Error(
      `There is no Chromium at ${executablePath}. Install one or name it in TACKBOARD_CHROMIUM.`,
    );
  const data = path.join(folder, 'cell-screen');
  mkdirSync(data, { recursive: true });
  say('loading the demo shop, for the screen of a cell');
  const server = await startServer({ root, data, timeZone: 'Europe/Berlin', demo: true });
  try {
    const browser = await chromium.launch({ executablePath, args: [...flags, ...quiet] });
    try {
      return await measured(browser, `http://127.0.0.1:${server.port}`, say);
    } finally {
      await browser.close();
    }
  } finally {
    await server.end('SIGTERM');
  }
}

async function measured(
  browser: Browser,
  address: string,
  say: Place['say'],
): Promise<CellScreenFigures> {
  const { page, context } = await atWork(browser, address);
  const devTools = await context.newCDPSession(page);
  const slow = async (rate: number) => devTools.send('Emulation.setCPUThrottlingRate', { rate });
  say(`tapping, the processor ${slowerBy} times slower`);
  await slow(slowerBy);
  const times: TapTimes = await tapTimes(page, tapRounds);
  say('opening it again from the service worker');
  const firstPaintSlow = timesOf(await paintTimes(page, paintRounds));
  await slow(1);
  const firstPaint = timesOf(await paintTimes(page, paintRounds));
  const figures = taps
    .filter(({ kind }) => (times.get(kind)?.length ?? 0) > 0)
    .map(({ kind }) => [kind, timesOf(times.get(kind) ?? [])]);
  return {
    taps: Object.fromEntries(figures) as Record<string, ScreenTimes>,
    ...{ firstPaint, firstPaintSlow },
  };
}

function timesOf(timesMs: readonly number[]): ScreenTimes {
  const { count, p50Ms, p95Ms } = figuresOf(timesMs);
  const tenths = (ms: number) => Math.round(ms * 10) / 10;
  return {
    ...{ count, p50Ms: tenths(p50Ms), p95Ms: tenths(p95Ms) },
    slowestMs: tenths(Math.max(...timesMs)),
  };
}
