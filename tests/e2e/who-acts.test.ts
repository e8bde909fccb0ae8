import type {
  CellView,
  HistoryEntry,
  ReplyOf,
  Run,
  cells as cellRoutes,
} from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { ask, openAs, openTablet, pinOf } from './support/demo-people.js';
import { button, field, press, typeOnPad } from './support/hands.js';
import { signInByPin, startAsShown } from './steps/welder.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;
const pins = new Map<string, string>();

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  for (const code of ['O03', 'O05', 'O08'])
    pins.set(code, await pinOf(browser, code, tool.address));
  screen = await openTablet(browser, 'R1', { address: tool.address, size: tabletSize });
  page = screen.page;
});
beforeEach(async () => {
  await ask(page, 'DELETE', '/api/session');
  await page.goto('/');
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** Picks the person and types the PIN where it is asked. */
async function givePin(code: string, pin = pins.get(code) ?? ''): Promise<void> {
  await press(page, new RegExp(code));
  await typeOnPad(page, pin);
}

async function cellNow(): Promise<CellView> {
  const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
  const id = cells.find(({ code }) => code === 'R1')?.id ?? '';
  return ask<CellView>(page, 'GET', `/api/cells/${id}/view`);
}

const wrong = (pin: string | undefined) => (pin === '000000' ? '000001' : '000000');

describe('who acts is asked at the act, in place', () => {
  it('a pull asks for the PIN and then pulls, as the one who gave it', async () => {
    await press(page, 'Sign in to pull');
    await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/cell/R1');
    await givePin('O08');
    await startAsShown(page);
    expect((await cellNow()).held?.step.holder?.personCode).toBe('O08');
  });

  it('the first piece, an NCR and putting the job down open for the one who gave the PIN', async () => {
    for (const [act, opens] of [
      ['Check the first piece', /^First piece: /],
      ['Raise NCR', 'What is wrong?'],
      ['Put down', 'Put down this job'],
    ] as const) {
      await press(page, act);
      await givePin('O08');
      await page.getByRole('heading', { name: opens }).waitFor();
      await press(page, 'Back');
      await press(page, 'Sign out');
      await button(page, 'Sign in to go on').waitFor();
    }
  });

  it('another person at the same tablet acts under their own name after their own PIN', async () => {
    await signInByPin(page, /O03/, pins.get('O03') ?? '');
    await page.getByText('Only O08 can count here now.').waitFor();
    expect(await button(page, 'Good +1').count()).toBe(0);
    await press(page, 'Sign in to go on');
    await givePin('O08');
    await press(page, 'Good +1');
    await page.getByText(/^Saved: 1 good/).waitFor();
    const runId = (await cellNow()).held?.step.holder?.runId ?? '';
    const run = await ask<Run>(page, 'GET', `/api/runs/${runId}`);
    expect([run.goodCount, run.personCode]).toEqual([1, 'O08']);
    const manager = await openAs(browser, 'M01', { address: tool.address });
    const path = `/api/history/run/${runId}`;
    const { entries } = await ask<{ entries: HistoryEntry[] }>(manager.page, 'GET', path);
    await manager.close();
    expect(entries[0]).toMatchObject({ type: 'run.counted', actorCode: 'O08' });
  });

  it('a PIN typed while the one before is still being checked is kept, and checked after it', async () => {
    await page.route('**/api/session/pin', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 2000));
      await route.continue();
    });
    await press(page, 'Sign in to go on');
    const pin = pins.get('O03') ?? '';
    await givePin('O03', wrong(pin));
    await typeOnPad(page, pin.slice(0, 4));
    await page.getByText('The code and the PIN do not belong together.').waitFor();
    await page.unroute('**/api/session/pin');
    await typeOnPad(page, pin.slice(4));
    await button(page, 'Sign out').waitFor();
  });

  it('a wrong PIN five times is answered in words, and what was half typed is still there', async () => {
    await signInByPin(page, /O08/, pins.get('O08') ?? '');
    await press(page, 'Note');
    await field(page, 'Note').fill('Third tack is');
    await press(page, 'Sign out');
    await press(page, 'Sign in to go on');
    await press(page, /O08/);
    for (let tries = 0; tries < 5; tries += 1) {
      // The words of the try before stand there until this one is answered.
      const answered = page.waitForResponse(/\/api\/session\/pin$/);
      await typeOnPad(page, wrong(pins.get('O08')));
      await answered;
      await page.getByText('The code and the PIN do not belong together.').waitFor();
    }
    await typeOnPad(page, pins.get('O08') ?? '');
    await page.getByText(/Too many wrong tries\. Wait \d+ s and try again/).waitFor();
    await press(page, 'Back');
    await button(page, 'Sign in to go on').waitFor();
    await page.reload();
    await button(page, 'Sign in to go on').waitFor();
    const kept = await page.evaluate(() => localStorage.getItem('tackboard.drafts'));
    expect(kept).toContain('Third tack is');
  });
});
