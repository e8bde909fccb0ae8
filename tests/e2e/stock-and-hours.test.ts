import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { startBrowser } from './support/browser.js';
import { openAs } from './support/demo-people.js';
import { choose, dialog, field, fill, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  ({ page } = await openAs(browser, 'S01', { address: tool.address }));
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

describe('consumables', () => {
  const table = (name: string) => page.getByRole('region', { name, exact: true });

  it('a lot is received, marked while it has no certificate, and loaded at a cell', async () => {
    await page.goto('/consumables');
    await press(page, 'Receive a lot');
    const receive = dialog(page, 'Receive a lot');
    await press(receive, 'Receive a lot');
    await receive.getByText('Amount is still empty. Fill it in.').waitFor();
    await choose(receive, 'Item', /Solid wire 1.2/);
    await fill(receive, { 'Lot number': 'L-901', Amount: '15,5' });
    await press(receive, 'Receive a lot');
    await receive.waitFor({ state: 'detached' });
    const lot = table('Lots').getByRole('row', { name: /L-901/ });
    await lot.getByText('No certificate').waitFor();
    expect(await lot.getByText('15.5 kg').count()).toBe(2);

    await press(page, 'Load a lot');
    const load = dialog(page, 'Load a lot');
    await choose(load, 'Cell', /^R1/);
    await choose(load, 'Lot', /L-901/);
    await load.getByText(/lot L-77, comes off/).waitFor();
    await fill(load, { Amount: '16' });
    await press(load, 'Load a lot');
    await load.getByText(/Lot L-901 has 15.5 kg left, 16 kg were to be loaded/).waitFor();
    expect(await field(load, 'Amount').inputValue()).toBe('16');
    await fill(load, { Amount: '0,5' });
    await press(load, 'Load a lot');
    await load.waitFor({ state: 'detached' });
    const loaded = table('Loaded at the cells').getByRole('row', { name: /L-901/ });
    await loaded.getByText(/Short: job \d+ still takes/).waitFor();
    await loaded.getByText('No certificate').waitFor();
    await lot.getByText('15 kg').waitFor();
  });

  it('a lot says what happened to it', async () => {
    await table('Lots').getByRole('row', { name: /L-901/ }).getByRole('button').click();
    const history = dialog(page, /Lot L-901/);
    await history.getByText(/Lot loaded/).waitFor();
    await history.getByText(/Lot received/).waitFor();
  });
});

describe('the hours of the cells on the board', () => {
  it('say when each step is planned, and a closed day moves what it meets', async () => {
    await page.goto('/board');
    const lane = page.getByRole('group', { name: /Queue of M1/ });
    const last = lane.locator('[data-step] .planned').last();
    const before = await last.innerText();
    expect(before).toMatch(/\d\d:\d\d to/);
    const manager = await openAs(browser, 'M01', { address: tool.address });
    await closeDays(manager.page, 'M1');
    await expect.poll(async () => last.innerText()).not.toBe(before);
    await lane.getByText(/^Works holiday, until /).waitFor();
    await manager.close();
  });

  it('a cell without hours says so in words', async () => {
    const manager = await openAs(browser, 'M01', { address: tool.address });
    await setCalendar(manager.page, 'M3', () => ({ shifts: [], dayChanges: [] }));
    const lane = page.getByRole('group', { name: /Queue of M3/ });
    await lane.getByText(/No working hours in the next \d+ days/).waitFor();
    expect(await lane.locator('.planned').count()).toBe(0);
    await manager.close();
  });
});

interface Calendar {
  readonly shifts: readonly object[];
  readonly dayChanges: readonly object[];
}

async function closeDays(on: Page, code: string): Promise<void> {
  const days = [0, 1, 2, 3].map((each) =>
    new Date(Date.now() + each * 86_400_000).toISOString().slice(0, 10),
  );
  const closed = (day: string) => ({ day, kind: 'closed', minutes: 0, reason: 'Works holiday' });
  await setCalendar(on, code, ({ shifts }) => ({ shifts, dayChanges: days.map(closed) }));
}

async function setCalendar(on: Page, code: string, change: (now: Calendar) => Calendar) {
  const { cells } = (await (await on.request.get('/api/cells')).json()) as {
    cells: { id: string; code: string; version: number; calendar: Calendar }[];
  };
  const cell = cells.find((each) => each.code === code);
  if (cell === undefined) throw new Error(`There is no cell ${code}.`);
  const answer = await on.request.put(`/api/cells/${cell.id}/calendar`, {
    headers: { 'idempotency-key': crypto.randomUUID() },
    data: { ...change(cell.calendar), expectedVersion: cell.version },
  });
  expect(answer.status(), await answer.text()).toBe(200);
}
