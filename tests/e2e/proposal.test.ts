import type { Board, OrderProposal } from '@tackboard/contract';
import type { Browser, Page, Response } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { faultsOn } from './support/axe.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
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
  ({ page } = screen);
  await turnLanesRound();
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** The worst there is: in every lane, what waits longest now comes last. */
async function turnLanesRound(): Promise<void> {
  const { lanes } = await ask<Board>(page, 'GET', '/api/board');
  for (const { cellId, steps } of lanes) {
    const waiting = steps.filter(({ state }) => state !== 'held').toReversed();
    for (const { id, version } of waiting) {
      const place = { cellId, beforeStepId: null, expectedVersion: version };
      await ask(page, 'POST', `/api/job-steps/${id}/move`, place);
    }
  }
}

const jobsInLanes = async () =>
  page.locator('[data-step] .head a').evaluateAll((links) => links.map((link) => link.textContent));
const panel = () => page.getByRole('region', { name: 'Proposed order of work' });

/** Ends once this search, not one before it, has found moves. */
async function askByKey(): Promise<void> {
  const answers = (path: string) => (answer: Response) =>
    answer.ok() && new URL(answer.url()).pathname === path;
  const asked = page.waitForResponse(answers('/api/proposals'));
  await page.getByRole('button', { name: 'Propose an order' }).focus();
  await page.keyboard.press('Enter');
  let proposal = (await (await asked).json()) as OrderProposal;
  while (proposal.state === 'searching' && proposal.moves.length === 0) {
    const read = await page.waitForResponse(answers(`/api/proposals/${proposal.id}`));
    proposal = (await read.json()) as OrderProposal;
  }
  await panel().getByRole('checkbox').first().waitFor();
}

/** Goes on by Tab until the control has the focus. */
async function tabTo(name: string | RegExp): Promise<void> {
  const wanted = panel()
    .getByRole('button', { name })
    .or(panel().getByRole('checkbox', { name }))
    .first();
  for (let keys = 0; keys < 60; keys += 1) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluate((one) => one === document.activeElement)) return;
  }
  throw new Error(`Tab does not reach ${String(name)}.`);
}

describe('a proposed order of work, by keyboard alone', () => {
  it('says what each order costs and why each move is worth making', async () => {
    await page.goto('/board');
    await page.locator('[data-step]').first().waitFor();
    screen.complaints();
    await askByKey();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Proposed');
    await panel()
      .getByText(/As the queues stand: .* late in all\. Proposed: .* less\./)
      .waitFor();
    await panel()
      .getByText(/less late$/)
      .first()
      .waitFor();
    expect(await faultsOn(page)).toEqual([]);
    await page.setViewportSize(tabletSize);
    await page.evaluate(() => (document.documentElement.dataset['theme'] = 'dark'));
    expect(await faultsOn(page)).toEqual([]);
    expect(screen.complaints()).toEqual([]);
  });

  it('is stopped, and left without a move', async () => {
    const before = await jobsInLanes();
    // Asked anew: the first search may have ended by itself meanwhile.
    await askByKey();
    await tabTo('Stop looking');
    await page.keyboard.press('Enter');
    await panel().getByText('Stopped. What was found stays here.').waitFor();
    await tabTo('Accept none');
    await page.keyboard.press('Enter');
    await panel().waitFor({ state: 'detached' });
    const focused = await page.evaluate(() => document.activeElement?.textContent?.trim());
    expect(focused).toBe('Propose an order');
    expect(await jobsInLanes()).toEqual(before);
  });

  it('is taken in part: the chosen move is made on the board', async () => {
    const before = await jobsInLanes();
    await askByKey();
    await tabTo(/^Job \d+ .* before job \d+ at M1/);
    await page.keyboard.press('Space');
    await tabTo('Accept chosen (1)');
    await page.keyboard.press('Enter');
    await panel().waitFor({ state: 'detached' });
    await page.getByText('Steps moved as proposed: 1.').waitFor({ state: 'attached' });
    await expect.poll(jobsInLanes).not.toEqual(before);
    expect((await jobsInLanes()).toSorted()).toEqual(before.toSorted());
  });

  it('is refused in words when the queues have changed, and stays on the screen', async () => {
    await askByKey();
    const { lanes } = await ask<Board>(page, 'GET', '/api/board');
    const lane = lanes.find(({ cellCode }) => cellCode === 'R1');
    const step = lane?.steps.find(({ state }) => state !== 'held');
    await ask(page, 'POST', `/api/job-steps/${step?.id}/move`, {
      ...{ cellId: lane?.cellId, beforeStepId: null, expectedVersion: step?.version },
    });
    await panel().getByRole('button', { name: 'Accept all' }).click();
    await panel()
      .getByText(/The run queues have changed since this order was proposed: job \d+/)
      .waitFor();
    expect(await panel().getByRole('checkbox').count()).toBeGreaterThan(0);
  });

  it('is offered to those who may take it only', async () => {
    const quality = await openAs(browser, 'Q02', { address: tool.address });
    await quality.page.goto('/board');
    await quality.page.locator('[data-step]').first().waitFor();
    expect(await quality.page.getByRole('button', { name: 'Propose an order' }).count()).toBe(0);
    await quality.close();
  });
});
