import type { Board, parts, ReplyOf, orders } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { faultsOn } from './support/axe.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;
let job: ReplyOf<typeof orders.job>;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  screen = await openAs(browser, 'S01', { address: tool.address });
  ({ page } = screen);
  await setFixture('missing');
  job = await orderBracket();
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

async function setFixture(condition: 'good' | 'missing'): Promise<void> {
  const { fixtures } = await ask<ReplyOf<typeof parts.fixtures>>(page, 'GET', '/api/fixtures');
  const fixture = fixtures.find(({ code }) => code === 'FX-031');
  const answer = await page.request.patch(`/api/fixtures/${fixture?.id}`, {
    headers: { 'idempotency-key': crypto.randomUUID() },
    data: { condition, expectedVersion: fixture?.version },
  });
  expect(answer.status()).toBe(200);
}

/** Two of the bracket, in a month. */
async function orderBracket() {
  const found = await ask<ReplyOf<typeof parts.list>>(page, 'GET', '/api/parts?search=X-210-01');
  const part = found.parts.find(({ number }) => number === 'X-210-01');
  const { customers } = await ask<ReplyOf<typeof parts.customers>>(page, 'GET', '/api/customers');
  const dueOn = new Date(Date.now() + 30 * 86_400_000).toISOString().slice(0, 10);
  const line = { partId: part?.id, orderedRevision: 'B', quantity: 12, dueOn };
  const order = await ask<ReplyOf<typeof orders.add>>(page, 'POST', '/api/orders', {
    customerId: customers.find(({ active }) => active)?.id,
    ...{ customerOrder: 'TC-1', lines: [line] },
  });
  return order.jobs[0]!;
}

const opened = () => page.getByRole('dialog');

async function tabTo(name: string | RegExp): Promise<void> {
  const wanted = page.getByRole('button', { name }).or(page.getByRole('link', { name })).first();
  await wanted.waitFor();
  for (let keys = 0; keys < 120; keys += 1) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluate((one) => one === document.activeElement)) return;
  }
  throw new Error(`Tab does not reach ${String(name)}.`);
}

const rowOfJob = () => page.getByRole('row', { name: new RegExp(`Job ${job.number}`) });

describe('what a job lacks, by keyboard alone', () => {
  it('stands on the board card with the day by which it is due', async () => {
    const board = await ask<Board>(page, 'GET', '/api/board');
    const lacks = board.toClear.find(({ jobId }) => jobId === job.id);
    expect(lacks?.open).toBeGreaterThanOrEqual(1);
    await page.goto('/board');
    await page
      .locator(`[data-step="${job.steps[0]?.id}"]`)
      .getByText(`${lacks?.open} open until `)
      .waitFor();
  });

  it('stands on the list of its person and on the job, and looks as it should', async () => {
    for (const address of ['/to-clear', `/orders/jobs/${job.id}`]) {
      screen.complaints();
      await page.goto(address);
      await page.getByText('FX-031 at B2-3, missing').first().waitFor();
      expect(await faultsOn(page)).toEqual([]);
    }
    await page.setViewportSize(tabletSize);
    await page.evaluate(() => (document.documentElement.dataset['theme'] = 'dark'));
    expect(await faultsOn(page)).toEqual([]);
    expect(screen.complaints()).toEqual([]);
  });

  it('is given to somebody else, who then has it', async () => {
    await page.goto('/to-clear');
    await tabTo(`See to it Fixture Job ${job.number}`);
    await page.keyboard.press('Enter');
    await opened().getByText('FX-031 at B2-3, missing').waitFor();
    expect(await faultsOn(page)).toEqual([]);
    await opened().getByLabel('Given to').focus();
    await page.keyboard.type('M01');
    await tabTo('Give to this person and day');
    await page.keyboard.press('Enter');
    await page.getByText(/^Given to /).waitFor();
    const left = rowOfJob().filter({ hasText: 'Fixture' });
    await left.waitFor({ state: 'detached' });
    const manager = await openAs(browser, 'M01', { address: tool.address });
    await manager.page.goto('/to-clear');
    await manager.page.getByText('FX-031 at B2-3, missing').first().waitFor();
    await manager.close();
  });

  it('closes by itself on the open page once the fixture is found', async () => {
    await page.goto(`/orders/jobs/${job.id}`);
    const row = page.getByRole('row', { name: /FX-031 at B2-3, missing/ });
    await row.getByText('Open', { exact: true }).waitFor();
    await setFixture('good');
    await row.getByText('There now').waitFor();
  });

  it('is said to be done by a key', async () => {
    await setFixture('missing');
    job = await orderBracket();
    await page.goto(`/orders/jobs/${job.id}`);
    await tabTo(`See to it Fixture Job ${job.number}`);
    await page.keyboard.press('Enter');
    await opened().getByLabel('What was done').focus();
    await page.keyboard.type('lent by the other hall');
    await page.keyboard.press('Enter');
    const row = page.getByRole('row', { name: /FX-031 at B2-3, missing/ });
    await row.getByText('lent by the other hall').waitFor();
    await row.getByText('Cleared', { exact: true }).waitFor();
  });
});
