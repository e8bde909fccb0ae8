import type { Revision, Weld } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { startBrowser } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button, choose, field, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let page: Page;
let other: Page;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  ({ page } = await openAs(browser, 'S01', { address: tool.address }));
  ({ page: other } = await openAs(browser, 'S02', { address: tool.address }));
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

const veeOf = (gapMm: number): Weld['preparation'] => ({
  ...{ kind: 'singleV', gapMm, rootFaceMm: 1, angleDeg: 60, rootRadiusMm: 6 },
  ...{ capHeightMm: 1, backing: 'none' },
});

/** Stores the one weld of a draft anew, as another person in the office does. */
async function store(draft: Revision, gapMm: number): Promise<Revision> {
  const weld = {
    ...{ number: 1, jointType: 'butt', throatMm: null, legMm: null, grooveDepthMm: 12 },
    ...{ lengthMm: 200, count: 1, thicknessAMm: 12, thicknessBMm: 12, materialA: 'S355' },
    ...{ materialB: 'S355', materialGroupA: '1.2', materialGroupB: '1.2', position: 'PA' },
    ...{ process: '135', stepNumber: 1, qualityLevel: 'C', sizeUnderMm: null, sizeOverMm: null },
    ...{ notes: '', preparation: veeOf(gapMm) },
  };
  const answer = await other.request.put(`/api/revisions/${draft.id}/welds`, {
    headers: { 'idempotency-key': crypto.randomUUID() },
    data: { expectedVersion: draft.version, welds: [weld] },
  });
  if (!answer.ok()) throw new Error(await answer.text());
  return (await answer.json()) as Revision;
}

it('with a stale weld list, taking what is stored takes its groove as well', async () => {
  const part = await ask<{ id: string }>(other, 'POST', '/api/parts', {
    ...{ number: 'GR-501', name: 'Base plate' },
  });
  const made = await ask<Revision>(other, 'POST', `/api/parts/${part.id}/revisions`, {
    ...{ label: 'A', drawingNumber: 'D-501' },
  });
  const first = await store(made, 2);
  await page.goto(`/parts/${part.id}/revisions/${made.id}`);
  const gap = field(page, 'Root gap');
  await expect.poll(async () => gap.inputValue()).toBe('2');
  await gap.fill('4');
  await choose(page, 'Preparation', /double/i);
  await store(first, 3);
  await button(page, /^Save the weld/).click();
  await press(page, 'Take what is stored');
  await expect.poll(async () => gap.inputValue()).toBe('3');
  const chosen = await field(page, 'Preparation').inputValue();
  expect(chosen).toBe('singleV');
});
