import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { demoPassword } from '@tackboard/seed';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { figuresOf } from './figures.js';
import { startServer } from './server.js';

/** Times of one tap or of one opening, at the speed of this machine and four times slower. */
export interface Slowed {
  readonly plainMs: number;
  readonly slowMs: number;
  /** The slowest of all at four times slower. */
  readonly worstMs: number;
  /** Median of the slowed ones over the median of the others. */
  readonly ratio: number;
}

export interface CellScreenFigures {
  readonly taps: Readonly<Record<string, Slowed>>;
  /** First contentful paint of the page of a cell without network, from the service worker. */
  readonly firstPaint: Slowed;
}

export const cellScreenTargets = { tapMs: 100, firstPaintMs: 1000 } as const;
export const slowerBy = 4;
const rounds = 10;
const person = 'O03';
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
const quiet = ['--disable-background-networking', '--disable-component-update', '--disable-sync'];

/** A tap, and what stands on the glass once it is answered. */
interface Tap {
  readonly words: string;
  readonly press: string;
  readonly shows: string;
}

/** The buttons that a welder presses all day; each leads to where the next one is. */
const taps: readonly Tap[] = [
  { words: 'Good +1', press: 'Good +1', shows: 'Yes, another one' },
  { words: 'another one', press: 'Yes, another one', shows: 'Good +1' },
  { words: 'stop', press: 'Stop', shows: 'Fault' },
  { words: 'its reason', press: 'Fault', shows: 'Go on' },
  { words: 'go on', press: 'Go on', shows: 'Good +1' },
  { words: 'readings', press: 'Readings', shows: 'Save readings' },
  { words: 'a pad', press: 'Current', shows: 'Current' },
  { words: 'a digit', press: '7', shows: '7' },
  { words: 'pad, back', press: 'Back', shows: 'Save readings' },
  { words: 'readings, back', press: 'Back', shows: 'Good +1' },
  { words: 'note', press: 'Note', shows: 'Save the note' },
  { words: 'note, back', press: 'Back', shows: 'Good +1' },
  { words: 'NCR', press: 'Raise NCR', shows: 'Surface pore' },
  { words: 'NCR, back', press: 'Back', shows: 'Good +1' },
  { words: 'first piece', press: 'Check the first piece', shows: 'Accepted: sign' },
  { words: 'first piece, back', press: 'Back', shows: 'Good +1' },
  { words: 'put down', press: 'Put down', shows: 'Set-up minutes' },
  { words: 'put down, back', press: 'Back', shows: 'Good +1' },
];

/** The screen of a robot cell of the demo shop in Chromium: how long a tap waits, and the first paint without network. */
export async function cellScreen(where: {
  readonly root: string;
  readonly folder: string;
  readonly say: (line: string) => void;
}): Promise<CellScreenFigures> {
  const executablePath = process.env['TACKBOARD_CHROMIUM'] ?? '/usr/bin/chromium';
  if (!existsSync(executablePath)) throw new Error(`There is no Chromium at ${executablePath}.`);
  const data = path.join(where.folder, 'cell-screen');
  mkdirSync(data, { recursive: true });
  where.say('loading the demo shop');
  const server = await startServer({
    ...{ root: where.root, data, timeZone: 'Europe/Berlin', demo: true },
  });
  const browser = await chromium.launch({ executablePath, args: [...flags, ...quiet] });
  try {
    const { page, context } = await atWork(browser, `http://127.0.0.1:${server.port}`);
    where.say('tapping, at full speed and four times slower');
    const devTools = await context.newCDPSession(page);
    const slow = async (rate: number) => devTools.send('Emulation.setCPUThrottlingRate', { rate });
    const plain = await tapTimes(page);
    await slow(slowerBy);
    const slowed = await tapTimes(page);
    await slow(1);
    where.say('opening without network');
    await context.setOffline(true);
    const opened = await paintTimes(page);
    await slow(slowerBy);
    const openedSlowly = await paintTimes(page);
    const tapFigures = taps.map(({ words }, at) => [words, compared(plain[at], slowed[at])]);
    return {
      taps: Object.fromEntries(tapFigures) as Record<string, Slowed>,
      firstPaint: compared(opened, openedSlowly),
    };
  } finally {
    await browser.close();
    await server.end('SIGTERM');
  }
}

function compared(plain: readonly number[] = [], slowed: readonly number[] = []): Slowed {
  const [one, other] = [figuresOf(plain), figuresOf(slowed)];
  const ratio = Math.round((other.p50Ms / one.p50Ms) * 100) / 100;
  const tenths = (ms: number) => Math.round(ms * 10) / 10;
  return {
    ...{ plainMs: tenths(one.p50Ms), slowMs: tenths(other.p50Ms) },
    ...{ worstMs: tenths(Math.max(...slowed)), ratio },
  };
}

/** A registered tablet at R1 with its operator, a job pulled, started, and one part counted. */
async function atWork(browser: Browser, baseURL: string) {
  const size = { width: 1280, height: 800 };
  const context = await browser.newContext({ baseURL, viewport: size, locale: 'en-GB' });
  const page = await context.newPage();
  const pin = await pinAtTablet(context);
  await page.goto('/');
  await context.request.post('/api/session/pin', { ...command(), data: { code: person, pin } });
  await page.reload();
  for (const name of ['Pull', 'As shown, start', 'Good +1'])
    await page.getByRole('button', { name, exact: true }).click();
  await page.getByText(/^Saved: 1 good/).waitFor();
  await page.evaluate(async () => navigator.serviceWorker.ready);
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  // The app asks once more before it counts again; every round begins like that.
  await page.getByRole('button', { name: 'Good +1', exact: true }).click();
  await page.getByText(/^Saved: /).waitFor();
  return { page, context };
}

const command = () => ({ headers: { 'idempotency-key': crypto.randomUUID() } });

/** The manager registers the tablet and issues a PIN; then nobody is signed in. */
async function pinAtTablet({ request }: BrowserContext): Promise<string> {
  const ask = async (at: string, data?: object) => {
    const answer = await (data === undefined
      ? request.get(at)
      : request.post(at, { ...command(), data }));
    if (!answer.ok()) throw new Error(`${at} answered ${await answer.text()}`);
    return (await answer.json()) as Record<string, { id: string; code: string }[]> & {
      pin: string;
    };
  };
  const idOf = (all: readonly { id: string; code: string }[] | undefined, code: string) =>
    all?.find((one) => one.code === code)?.id;
  await ask('/api/session', { code: 'M01', password: demoPassword });
  const cellId = idOf((await ask('/api/cells'))['cells'], 'R1');
  await ask('/api/tablets', { name: 'Tablet R1', cellId });
  const personId = idOf((await ask('/api/people'))['people'], person);
  const { pin } = await ask(`/api/people/${personId}/pin`, {});
  await request.delete('/api/session', command());
  return pin;
}

/** For each tap the times of all rounds, from the touch to the frame after the one that shows its answer. */
async function tapTimes(page: Page): Promise<readonly (readonly number[])[]> {
  const times: number[][] = taps.map(() => []);
  for (let round = 0; round < rounds; round += 1) {
    for (const [at, tap] of taps.entries()) times[at]?.push(await tapTime(page, tap));
  }
  return times;
}

async function tapTime(page: Page, { press, shows }: Tap): Promise<number> {
  const button = page.locator('aside.acts').getByRole('button', { name: press });
  await page.evaluate((awaited) => {
    const acts = () => document.querySelector<HTMLElement>('aside.acts');
    const answered = new Promise<number>((resolve) => {
      const listen = { capture: true, once: true };
      const heard = (event: Event) => {
        const before = acts()?.innerText;
        const look = () => {
          const now = acts()?.innerText ?? '';
          if (now === before || !now.includes(awaited)) requestAnimationFrame(look);
          else requestAnimationFrame(() => resolve(performance.now() - event.timeStamp));
        };
        requestAnimationFrame(look);
      };
      addEventListener('click', heard, listen);
    });
    Object.assign(globalThis, { answered });
  }, shows);
  await button.first().click();
  return page.evaluate(
    async () => (globalThis as unknown as { answered: Promise<number> }).answered,
  );
}

async function paintTimes(page: Page): Promise<readonly number[]> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    await page.reload();
    await page.getByRole('button', { name: 'Good +1', exact: true }).waitFor();
    const [paint] = await page.evaluate(() =>
      performance.getEntriesByName('first-contentful-paint').map(({ startTime }) => startTime),
    );
    if (paint === undefined) throw new Error('The browser tells no first paint.');
    times.push(paint);
  }
  return times;
}
