import type { CellView, Run, cells as cellRoutes, ReplyOf } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countOne, signInByPin, startAsShown } from './steps/welder.js';
import type { Screen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button, field, press } from './support/hands.js';
import { startRobotCell } from './support/robot-cell.js';
import type { Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;

beforeAll(async () => {
  const cell = await startRobotCell();
  ({ tool, browser, screen, page } = cell);
  await page.goto('/');
  await signInByPin(page, /O03/, cell.pin);
  await press(page, 'Pull');
  await button(page, 'As shown, start').waitFor();
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

async function runNow(): Promise<Run> {
  const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
  const id = cells.find(({ code }) => code === 'R1')?.id ?? '';
  const view = await ask<CellView>(page, 'GET', `/api/cells/${id}/view`);
  return ask<Run>(page, 'GET', `/api/runs/${view.held?.step.holder?.runId ?? ''}`);
}
const acts = () => page.locator('aside.acts');

describe('the start of a run at the cell', () => {
  it('shows five points as the card asks for them, and nothing can be counted before', async () => {
    const points = await acts().locator('dt').allInnerTexts();
    expect(points).toEqual([
      ...['Part', 'Wire and gas', 'Fixture and torch'],
      ...['Procedure and settings', 'Extraction and guards'],
    ]);
    const list = acts().locator('dl');
    await list.getByText(/, lot \S+ · .*, lot \S+/).waitFor();
    const words = await list.innerText();
    expect(words).toMatch(/rev \w+ · \d+ to make/);
    expect(words).toMatch(/rev \d+ · WPS-\d+ r\d+ · dialled as on the card/);
    for (const name of ['Good +1', 'Rework +1', 'Scrap +1', 'Check the first piece'])
      expect(await button(page, name).count()).toBe(0);
    for (const name of ['Stop', 'Put down', 'Raise NCR'])
      expect(await button(page, name).count()).toBe(1);
  });

  it('what is typed about a point stays through a reload, and can be taken back', async () => {
    await press(page, 'Something is not as shown');
    await press(page, 'Fixture and torch');
    await field(page, 'What is there instead?').fill('Clamp 2 is worn');
    await page.reload();
    await page.getByRole('heading', { name: 'Not as shown: Fixture and torch' }).waitFor();
    expect(await field(page, 'What is there instead?').inputValue()).toBe('Clamp 2 is worn');
    await press(page, 'Keep: not as shown');
    await acts().getByText('Clamp 2 is worn').waitFor();
    await button(page, 'Tell the office, start').waitFor();
    await press(page, 'Something is not as shown');
    await press(page, 'Fixture and torch');
    await press(page, 'It is as shown');
    await button(page, 'As shown, start').waitFor();
  });

  it('extraction that is off is told without network, keeps the count closed, and goes out once', async () => {
    await page.evaluate(async () => navigator.serviceWorker.ready);
    await screen.context.setOffline(true);
    await press(page, 'Something is not as shown');
    await press(page, 'Extraction and guards');
    await field(page, 'What is there instead?').fill('The arm sucks nothing');
    await press(page, 'Keep: not as shown');
    await press(page, 'Tell the office');
    await page.getByText(/No arc before extraction and guards are right/).waitFor();
    expect(await button(page, 'Good +1').count()).toBe(0);
    await page.reload();
    await page.getByText(/No arc before extraction and guards are right/).waitFor();
    await press(page, 'As shown, start');
    await press(page, 'Good +1');
    await page.getByText('1 good, 0 to rework, 0 scrap in this run; 3 not sent yet').waitFor();
    await screen.context.setOffline(false);
    await page.getByText(/^Saved: 1 good/).waitFor();
    const run = await runNow();
    expect(run).toMatchObject({ goodCount: 1, start: { personCode: 'O03', differences: [] } });
    const office = await openAs(browser, 'M01', { address: tool.address });
    await office.page.goto('/to-clear');
    await office.page.getByText(/At R1, extraction and guards not as shown: The arm/).waitFor();
    const history = await ask<{ entries: { type: string }[] }>(
      ...([office.page, 'GET', `/api/history/run/${run.id}`] as const),
    );
    expect(history.entries.filter(({ type }) => type === 'run.started')).toHaveLength(2);
    await office.close();
  });

  it('a part counted again within 20 s is asked about, and a no leaves the count as it was', async () => {
    await countOne(page, 'Scrap +1');
    await page.getByText(/^Saved: 1 good, 0 to rework, 1 scrap/).waitFor();
    await press(page, 'Scrap +1');
    await page.getByText(/^Another one\? The last part was counted \d+ s ago\.$/).waitFor();
    await press(page, 'No');
    await page.getByText(/^Saved: 1 good, 0 to rework, 1 scrap/).waitFor();
    expect((await runNow()).scrapCount).toBe(1);
    await press(page, 'Scrap +1');
    await press(page, 'Yes, another one');
    await page.getByText(/^Saved: 1 good, 0 to rework, 2 scrap/).waitFor();
    expect((await runNow()).scrapCount).toBe(2);
  });

  it('is not asked again after a stop', async () => {
    await press(page, 'Stop');
    await press(page, 'Fault');
    await press(page, 'Go on');
    await button(page, 'Scrap +1').waitFor();
    await acts()
      .getByText(/^Start confirmed by O03 at \d\d:\d\d/)
      .waitFor();
    expect(await button(page, 'As shown, start').count()).toBe(0);
  });
});

describe('a pull without network', () => {
  it('is not yours yet, and nobody holds the step because of it', async () => {
    await press(page, 'Put down');
    await press(page, /^Put down, /);
    await button(page, 'Pull').waitFor();
    await screen.context.setOffline(true);
    await press(page, 'Pull');
    await page.getByText(/not yours yet/i).waitFor();
    expect(await button(page, 'As shown, start').count()).toBe(0);
    await screen.context.setOffline(false);
    const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
    const id = cells.find(({ code }) => code === 'R1')?.id ?? '';
    expect((await ask<CellView>(page, 'GET', `/api/cells/${id}/view`)).held).toBeNull();
    await press(page, 'Pull');
    await startAsShown(page);
  });
});

describe('a robot whose program was changed since', () => {
  it('asks which revision is loaded and why, and keeps the difference as a change', async () => {
    const before = await runNow();
    await press(page, 'Put down');
    await press(page, /^Put down, /);
    await press(page, 'Pull');
    await press(page, 'Something is not as shown');
    await press(page, 'Procedure and settings');
    await field(page, 'What is there instead?').fill('Corner slowed down');
    await page.getByLabel(/^Revision of .* that is loaded; known is/).fill('99');
    await press(page, 'Keep: not as shown');
    await press(page, 'Tell the office, start');
    await button(page, 'Good +1').waitFor();
    await page.getByText(/revision 99 is loaded, .* was known/).waitFor();
    const memory = await ask<{ programAtStart: string; changed: { to: string; why: string }[] }>(
      ...([page, 'GET', `/api/job-steps/${before.jobStepId}/memory`] as const),
    );
    expect(memory.programAtStart).toBe('99');
    expect(memory.changed.at(-1)).toMatchObject({ to: '99', why: 'Corner slowed down' });
  });
});

describe('a clock that is not that of the shop', () => {
  it.each([
    ['ahead', 10],
    ['behind', -10],
  ])('is told at the cell when it is ten minutes %s', async (way, minutes) => {
    const other = await openAs(browser, 'M01', { address: tool.address });
    await other.page.clock.setSystemTime(Date.now() + minutes * 60_000);
    await other.page.goto('/cell/R1');
    await other.page.getByText(new RegExp(`This tablet’s clock is 10 min ${way}`)).waitFor();
    await other.close();
  });
});
