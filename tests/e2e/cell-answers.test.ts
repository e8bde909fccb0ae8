import type { consumables, ReplyOf } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { enterReadings, signInByPin, startAsShown } from './steps/welder.js';
import type { Screen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button, press } from './support/hands.js';
import { startRobotCell } from './support/robot-cell.js';
import type { Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;
let pin = '';

beforeAll(async () => {
  ({ tool, browser, screen, page, pin } = await startRobotCell());
  await page.goto('/');
  await signInByPin(page, /O03/, pin);
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

function signal() {
  let give = (): void => undefined;
  const given = new Promise<void>((resolve) => (give = resolve));
  return { given, give: () => give() };
}

/** A change that each cell hears of, made in the office. */
async function receiveLot(): Promise<void> {
  const office = await openAs(browser, 'S01', { address: tool.address });
  const { items } = await ask<ReplyOf<typeof consumables.items>>(office.page, 'GET', '/api/items');
  await ask(office.page, 'POST', '/api/lots', {
    ...{ itemId: items[0]?.id, number: 'L-LATE', receivedOn: '2026-10-05', receivedAmount: 5 },
  });
  await office.close();
}

describe('an answer that comes late', () => {
  it('does not take the job off the glass that was pulled meanwhile', async () => {
    const view = '**/api/cells/*/view';
    const [asked, late] = [signal(), signal()];
    await page.route(
      view,
      async (route) => {
        const before = await route.fetch();
        asked.give();
        await late.given;
        await route.fulfill({ response: before });
      },
      { times: 1 },
    );
    await receiveLot();
    await asked.given;
    await press(page, 'Pull');
    await button(page, 'As shown, start').waitFor();
    const told = page.waitForResponse((reply) => reply.url().endsWith('/view'));
    late.give();
    await (await told).finished();
    await page.evaluate(async () => new Promise((resolve) => setTimeout(resolve, 200)));
    expect(await button(page, 'As shown, start').count()).toBe(1);

    // Nor is it what the tablet goes by without network.
    await page.evaluate(async () => navigator.serviceWorker.ready);
    await page.context().setOffline(true);
    await page.reload();
    await button(page, 'As shown, start').waitFor();
    await page.context().setOffline(false);
  });
});

/** How often each text comes, each number once. */
function timesEach(texts: readonly string[]): number[] {
  return [...new Set(texts.map((text) => texts.filter((one) => one === text).length))];
}

describe('what the server says to acts that waited', () => {
  it('is shown twice where it says the same twice, and the buttons stay', async () => {
    await startAsShown(page);
    await page.evaluate(async () => navigator.serviceWorker.ready);
    screen.complaints();
    await page.context().setOffline(true);
    await enterReadings(page, { Current: '999' });
    await enterReadings(page, { Current: '999' });
    await page.getByText(/2 not sent yet/).waitFor();
    await page.context().setOffline(false);
    await page.getByText(/^Saved: /).waitFor();
    const answers = page.locator('aside.acts .saved .answer').filter({ hasText: '999' });
    await expect.poll(async () => timesEach(await answers.allInnerTexts())).toContain(2);
    expect(await button(page, 'Good +1').count()).toBe(1);
    expect(screen.complaints().filter((words) => words.startsWith('uncaught'))).toEqual([]);
  });
});

describe('an answer that no screen can show', () => {
  it('leaves a sentence and a way on, never a dead screen, and keeps what was counted', async () => {
    const broken = '**/api/cells/*/view';
    await page.route(broken, async (route) => {
      const reply = await route.fetch();
      await route.fulfill({ response: reply, json: { ...(await reply.json()), lane: null } });
    });
    await page.reload();
    await page.getByRole('heading', { name: 'This page could not be shown' }).waitFor();
    await page.getByText('Nothing that was counted or stored is lost.').waitFor();
    expect(screen.complaints().some((words) => words.startsWith('uncaught'))).toBe(true);

    await page.getByRole('link', { name: 'Board', exact: true }).click();
    await page.getByRole('heading', { name: 'Board', level: 1 }).waitFor();
    await page.getByRole('link', { name: 'At the cell' }).click();
    await page.getByRole('heading', { name: 'This page could not be shown' }).waitFor();

    await page.unroute(broken);
    await press(page, 'Load the page again');
    await button(page, 'Good +1').waitFor();
  });
});

describe('a pull whose answer is lost', () => {
  it('is not said to be nobody’s once the screen shows it in your hands', async () => {
    await press(page, 'Put down');
    await press(page, /^Put down, /);
    await button(page, 'Pull').waitFor();
    await page.route(
      '**/api/cells/*/pull',
      async (route) => {
        await route.fetch();
        await route.abort();
      },
      { times: 1 },
    );
    await press(page, 'Pull');
    await button(page, 'As shown, start').waitFor();
    expect(await page.getByText(/^Not yours yet/).count()).toBe(0);
    await startAsShown(page);
  });
});

describe('a tablet that asks who is here', () => {
  it('signs nobody out who signed in before the answer came', async () => {
    await press(page, 'Sign out');
    await button(page, 'Sign out').waitFor({ state: 'detached' });
    await page.context().setOffline(true);
    await page.reload();
    await button(page, 'Sign in to go on').waitFor();
    const [asked, late] = [signal(), signal()];
    await page.route('**/api/session', async (route) => {
      if (route.request().method() !== 'GET') return route.continue();
      const before = await route.fetch();
      asked.give();
      await late.given;
      return route.fulfill({ response: before });
    });
    await page.context().setOffline(false);
    await asked.given;
    await signInByPin(page, /O03/, pin);
    const told = page.waitForResponse(
      (reply) => reply.url().endsWith('/session') && reply.request().method() === 'GET',
    );
    late.give();
    await (await told).finished();
    await page.evaluate(async () => new Promise((resolve) => setTimeout(resolve, 200)));
    expect(await button(page, 'Sign out').count()).toBe(1);
    await page.unroute('**/api/session');
  });
});
