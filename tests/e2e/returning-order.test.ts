import type { Board, HistoryEntry, Job, orders, ReplyOf } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { startBrowser, type Screen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button, field } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

/** Slower than most who type all day: four keys a second. */
const perKeyMs = 250;
const longestMs = 60_000;

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  screen = await openAs(browser, 'S01', { address: tool.address });
  ({ page } = screen);
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** Two hands at the keys of one page, each key at its time and counted. */
function typist(at: Page) {
  let keys = 0;
  let firstMs: number | null = null;
  async function press(key: string): Promise<void> {
    firstMs ??= performance.now();
    keys += 1;
    await at.keyboard.press(key);
    await at.waitForTimeout(perKeyMs);
  }
  return {
    press,
    async type(text: string): Promise<void> {
      for (const key of text) await press(key);
    },
    /** Tab by Tab, as somebody who looks where the focus is. */
    async tabTo(label: string): Promise<void> {
      const target = field(at, label);
      for (let tabs = 0; tabs < 12; tabs += 1) {
        if (await target.evaluate((one) => one === document.activeElement)) return;
        await press('Tab');
      }
      throw new Error(`${label} was not reached by the Tab key.`);
    },
    keys: () => keys,
    tookMs: () => performance.now() - (firstMs ?? Number.NaN),
  };
}

/** `6.10.` for a day some weeks ahead, as it is typed. */
function typedDay(inDays: number): string {
  const day = new Date(Date.now() + inDays * 86_400_000);
  return `${day.getUTCDate()}.${day.getUTCMonth() + 1}.`;
}

describe('a returning order', () => {
  let order: ReplyOf<typeof orders.list>['orders'][number] | undefined;

  it('is queued within sixty seconds of the first key, by keyboard alone at four keys a second', async () => {
    await page.goto('/orders/new');
    await button(page, 'Take the order').waitFor();
    await page.waitForFunction(() => document.activeElement?.localName === 'input');
    const hands = typist(page);
    await hands.type('x-210-01');
    const option = page.getByRole('option', { name: 'X-210-01' }).first();
    await option.waitFor();
    if ((await option.getAttribute('data-highlighted')) === null) await hands.press('ArrowDown');
    await hands.press('Enter');
    await hands.tabTo('Revision ordered');
    await hands.type('B');
    await hands.tabTo('Quantity');
    await hands.type('12');
    await hands.tabTo('Due date');
    await hands.type(typedDay(21));
    await hands.tabTo("Customer's order number");
    await hands.type('RO-60');
    await page
      .getByText(/unchanged since/i)
      .first()
      .waitFor();
    await hands.press('Enter');
    await page.getByText(/^Order \d+ of .* is taken/).waitFor();
    const tookMs = hands.tookMs();
    process.stdout.write(
      `returning order: ${hands.keys()} keys at ${perKeyMs} ms, queued after ${(tookMs / 1000).toFixed(1)} s\n`,
    );
    expect(tookMs).toBeLessThan(longestMs);
    // What is typed alone takes this long: the clock did run.
    expect(tookMs).toBeGreaterThan(hands.keys() * perKeyMs);
    const found = await ask<ReplyOf<typeof orders.list>>(page, 'GET', '/api/orders?search=RO-60');
    order = found.orders[0];
    const [job] = order?.jobs as [Job];
    const { lanes } = await ask<Board>(page, 'GET', '/api/board');
    const queued = lanes.flatMap(({ steps }) => steps).filter(({ jobId }) => jobId === job.id);
    expect(queued).toMatchObject([{ state: 'waiting', partNumber: 'X-210-01', quantity: 12 }]);
  });

  it('leaves its seconds in the history of the order, and the median on the page of the week', async () => {
    const { entries } = await ask<{ entries: HistoryEntry[] }>(
      page,
      'GET',
      `/api/history/order/${order?.id}`,
    );
    const { entryMs } = entries[0]?.after as { entryMs: number };
    expect(entryMs).toBeGreaterThan(1_000);
    expect(entryMs).toBeLessThan(longestMs);
    await page.goto('/week');
    await page.getByText(/^Half of the orders took \d+ s or less to enter/).waitFor();
  });
});
