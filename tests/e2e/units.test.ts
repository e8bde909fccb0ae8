import type { procedures, ReplyOf } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { startBrowser } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { choose, fill, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let manager: Page;
let qa: Page;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  const options = { address: tool.address };
  ({ page: manager } = await openAs(browser, 'M01', options));
  ({ page: qa } = await openAs(browser, 'Q02', options));
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

async function switchTo(system: RegExp): Promise<void> {
  await manager.goto('/settings');
  await choose(manager, 'Units', system);
  await fill(manager, { Reason: 'the drawings are in these units' });
  await press(manager, 'Save the settings');
  await manager.getByText('Saved. Every screen follows.').waitFor();
}

/** An inch is 25.4 mm: a plate of 12.7 mm is one of 0.5 in, and 520 mm/min are 20.47 in/min. */
describe('units of the shop', () => {
  it('typed in metric, a thickness is repeated in inches', async () => {
    await qa.goto('/procedures/records/new');
    const thickness = qa.getByLabel(/^\s*Thickness/).first();
    await thickness.fill('12,7');
    await qa.getByText('= 0.5 in', { exact: true }).waitFor();
  });

  it('the manager switches, and the form that QA has open follows without losing what was typed', async () => {
    await switchTo(/US customary/);
    const thickness = qa.getByLabel(/^\s*Thickness/).first();
    await qa.getByText('= 12.7 mm', { exact: true }).waitFor();
    expect(await thickness.inputValue()).toBe('0.5');
    await qa
      .getByLabel(/^\s*Travel/)
      .first()
      .fill('20.5');
    await qa.getByText(/= 520\.7 mm\/min = 52\.1 cm\/min/).waitFor();
  });

  it('QA reads the ranges of a procedure in inches, while the server still answers in millimetres', async () => {
    const { wpss } = await ask<ReplyOf<typeof procedures.list>>(qa, 'GET', '/api/wpss');
    const wps = wpss.find(({ number }) => number === 'WPS-014');
    const thickestMm = wps?.thicknessMm?.max ?? Number.NaN;
    await qa.goto(`/procedures/${wps?.id ?? ''}`);
    const inches = String(Number((thickestMm / 25.4).toFixed(3)));
    await qa
      .getByText(new RegExp(`${inches.replace('.', '\\.')} in`))
      .first()
      .waitFor();
    await qa
      .getByText(/in\/min/)
      .first()
      .waitFor();
    await qa
      .getByText(/kJ\/in/)
      .first()
      .waitFor();
  });

  it('back in metric QA reads millimetres again, and the history says why twice', async () => {
    await switchTo(/Metric/);
    await qa
      .getByText(/kJ\/mm/)
      .first()
      .waitFor();
    expect(await qa.getByText(/kJ\/in/).count()).toBe(0);
    await manager.getByText('the drawings are in these units').nth(1).waitFor();
  });
});
