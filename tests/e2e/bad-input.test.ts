import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { startBrowser, type Screen } from './support/browser.js';
import { openAs } from './support/demo-people.js';
import { button, field, fill, find, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

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
  page = screen.page;
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** A filled order of a part that is usually made in twelves. */
async function begin(changes: Readonly<Record<string, string>>): Promise<void> {
  await page.goto('/orders/new');
  await find(page, 'Part', 'Y-88', /X-210-01/);
  await page.getByText('usually 12').first().waitFor();
  await fill(page, {
    'Revision ordered': 'B',
    Quantity: '12',
    'Due date': future(),
    "Customer's order number": 'AL-4711',
    ...changes,
  });
}

/** A day three weeks ahead, as people type it. */
function future(): string {
  return new Date(Date.now() + 21 * 86_400_000).toISOString().slice(0, 10);
}

async function shown(label: string): Promise<string> {
  return field(page, label).inputValue();
}

async function ordersOnFile(): Promise<number> {
  const answer = await page.request.get('/api/orders?limit=1');
  return ((await answer.json()) as { total: number }).total;
}

describe('what cannot be taken is answered in words, and nothing typed is lost', () => {
  it.each([
    { typed: '0', allowed: 'must be 1 or more' },
    { typed: '-3', allowed: 'must be 1 or more' },
    { typed: '12.5', allowed: 'must be a whole number of parts' },
  ])('a quantity of $typed', async ({ typed, allowed }) => {
    const before = await ordersOnFile();
    await begin({ Quantity: typed });
    await press(page, 'Take the order');
    await page.getByText(allowed).first().waitFor();
    expect(await shown('Quantity')).toBe(typed);
    expect(await shown('Part')).toBe('X-210-01');
    expect(await shown("Customer's order number")).toBe('AL-4711');
    expect(await ordersOnFile()).toBe(before);
  });

  it('a number that is none', async () => {
    await begin({ Quantity: 'a dozen' });
    await page.getByText('"a dozen" is not a number.').waitFor();
    expect(await shown('Quantity')).toBe('a dozen');
  });

  it('a day that is in no calendar', async () => {
    const before = await ordersOnFile();
    await begin({ 'Due date': '31.2.' });
    await page.getByText('There is no such day as "31.2.".').waitFor();
    await press(page, 'Take the order');
    await page.getByText('There is no such day as "31.2.".').waitFor();
    expect(await shown('Due date')).toBe('31.2.');
    expect(await ordersOnFile()).toBe(before);
  });

  it('a short day is echoed with its weekday and year', async () => {
    await begin({ 'Due date': '5.10.' });
    await page.getByText(/^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) 5 Oct \d{4}$/).waitFor();
    expect(await shown('Due date')).toBe('5.10.');
  });

  it('a day that has passed asks for a reason', async () => {
    const before = await ordersOnFile();
    await begin({ 'Due date': '2026-01-09' });
    await page
      .getByText(/The due date Fri 9 Jan 2026 has passed/)
      .first()
      .waitFor();
    await press(page, 'Take the order');
    await page
      .getByText(/a reason, or a due date from/)
      .first()
      .waitFor();
    expect(await ordersOnFile()).toBe(before);
    await fill(page, { 'Why the order is taken past its due date': 'Part delivery was agreed' });
    await press(page, 'Take the order');
    await page.getByText(/^Order \d+ of .* is taken/).waitFor();
    expect(await ordersOnFile()).toBe(before + 1);
  });

  it('1200 of a part usually made in twelves asks before it is taken', async () => {
    const before = await ordersOnFile();
    await begin({ Quantity: '1200' });
    await page
      .getByText(/1200 parts: [\d.]+ times the usual 12\?/)
      .first()
      .waitFor();
    await press(page, 'Take the order');
    await page
      .getByText(/any quantity once confirmed/)
      .first()
      .waitFor();
    expect(await ordersOnFile()).toBe(before);
    expect(await shown('Quantity')).toBe('1200');
    await page.getByLabel('Yes, 1200 parts are meant').check();
    await press(page, 'Take the order');
    await page.getByText(/^Order \d+ of .* is taken/).waitFor();
    expect(await ordersOnFile()).toBe(before + 1);
  });

  it('an empty form names what is still empty', async () => {
    await page.goto('/orders/new');
    await button(page, 'Take the order').waitFor();
    await press(page, 'Take the order');
    for (const label of ['Part', 'Revision ordered', 'Quantity', 'Due date'])
      await page.getByText(`${label} is still empty. Fill it in.`).waitFor();
  });
});

describe('the board by keyboard alone', () => {
  it('a focused card moves with Alt and an arrow key, and another screen sees it move', async () => {
    const other = await openAs(browser, 'S02', { address: tool.address });
    await other.page.goto('/board');
    await page.goto('/board');
    const lane = page.getByRole('group', { name: /Queue of R1/ });
    const movable = lane.locator('[data-step]').filter({ has: page.getByText('Move …') });
    const first = await movable.nth(0).getAttribute('data-step');
    const second = await movable.nth(1).getAttribute('data-step');
    await tabTo(page, `[data-step="${second}"] a`);
    await page.keyboard.press('Alt+ArrowUp');
    await page.getByText(/Job \d+ is now number \d+ of \d+ at R1\./).waitFor();
    const order = async (on: Page) =>
      on
        .getByRole('group', { name: /Queue of R1/ })
        .locator(`[data-step="${first}"], [data-step="${second}"]`)
        .evaluateAll((cards) => cards.map((card) => card.getAttribute('data-step')));
    expect(await order(page)).toEqual([second, first]);
    await expect.poll(async () => order(other.page)).toEqual([second, first]);
    const focused = await page.evaluate(
      () => document.activeElement?.closest('[data-step]')?.getAttribute('data-step') ?? null,
    );
    expect(focused).toBe(second);
    await other.close();
  });

  it('the dialog moves a card to another cell with a reason', async () => {
    await page.goto('/board');
    const lane = page.getByRole('group', { name: /Queue of R1/ });
    const card = lane
      .locator('[data-step]')
      .filter({ has: page.getByText('Move …') })
      .last();
    const step = await card.getAttribute('data-step');
    await tabTo(page, `[data-step="${step}"] button`);
    await page.keyboard.press('Enter');
    const form = page.getByRole('dialog');
    await form.waitFor();
    await page.keyboard.press('Escape');
    await form.waitFor({ state: 'detached' });
    expect(await lane.locator(`[data-step="${step}"]`).count()).toBe(1);
  });
});

/** Presses Tab until the place has the focus, as a person without a mouse does. */
async function tabTo(on: Page, selector: string): Promise<void> {
  const target = on.locator(selector);
  await target.waitFor();
  for (let presses = 0; presses < 300; presses += 1) {
    await on.keyboard.press('Tab');
    if (await target.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error(`${selector} was not reached by the Tab key.`);
}
