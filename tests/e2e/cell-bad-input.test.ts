import type {
  CellView,
  Run,
  SetUpMemory,
  cells as cellRoutes,
  people,
  ReplyOf,
} from '@tackboard/contract';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sizesAsDrawn } from '../support/make-batch.js';
import { png } from '../support/pictures.js';
import { countOne, enterReadings, signInByPin, startAsShown } from './steps/welder.js';
import { openScreen } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button, field, press, typeOnPad } from './support/hands.js';
import { startRobotCell } from './support/robot-cell.js';
import type { Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let page: Page;
let pin = '';
let folder = '';

beforeAll(async () => {
  ({ tool, browser, page, pin } = await startRobotCell());
  folder = await mkdtemp(path.join(tmpdir(), 'tackboard-photos-'));
  await page.goto('/');
  await signInByPin(page, /O03/, pin);
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
  await rm(folder, { recursive: true, force: true });
});

async function runNow(): Promise<Run> {
  const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
  const id = cells.find(({ code }) => code === 'R1')?.id ?? '';
  const view = await ask<CellView>(page, 'GET', `/api/cells/${id}/view`);
  return ask<Run>(page, 'GET', `/api/runs/${view.held?.step.holder?.runId ?? ''}`);
}

/** From scanning the traveler until the first arc may burn; a tap is a tap of a finger on the glass. */
const mostTaps = 6;

describe('a batch that returns', () => {
  it(`is ready to weld ${mostTaps} taps after its traveler was scanned, or fewer`, async () => {
    await button(page, 'Pull').waitFor();
    const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(page, 'GET', '/api/cells');
    const id = cells.find(({ code }) => code === 'R1')?.id ?? '';
    const { next } = await ask<CellView>(page, 'GET', `/api/cells/${id}/view`);
    await page.evaluate(() => {
      const counted = globalThis as unknown as { taps: number };
      counted.taps = 0;
      addEventListener('pointerdown', () => (counted.taps += 1), { capture: true });
    });
    await page.keyboard.type(`/orders/jobs/${next?.step.jobId ?? ''}`);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Opened: job/ }).waitFor();
    await press(page, 'Pull');
    await startAsShown(page);
    await button(page, 'Change a setting').waitFor();
    await button(page, 'Check the first piece').waitFor();
    const taps = await page.evaluate(() => (globalThis as unknown as { taps: number }).taps);
    expect(taps).toBeGreaterThan(1);
    expect(taps).toBeLessThanOrEqual(mostTaps);
  });
});

describe('what cannot be at the cell is answered in words, and what was typed stays', () => {
  it('a reading with a comma is taken, and one in the wrong unit is asked about and kept as typed', async () => {
    await enterReadings(page, { Voltage: '26,5', Travel: '52' });
    await page.getByText('Saved as typed: Voltage 26,5 V, Travel 52 mm/min').waitFor();
    await page
      .getByText('Was a travel of 520 mm/min meant? 52 mm/min is stored as typed.')
      .waitFor();
    expect((await runNow()).readings.at(-1)).toMatchObject({ voltageV: 26.5, travelMmMin: 52 });
  });

  it('set-up minutes can be neither negative nor words: the pad has digits only', async () => {
    await press(page, 'Put down');
    const pad = page.getByRole('group', { name: 'Set-up minutes in this run' });
    const keys = await pad.getByRole('button').allInnerTexts();
    expect(keys.filter((key) => /^[-−+,.]$/.test(key))).toEqual([]);
    await typeOnPad(page, '25');
    await press(page, 'Back');
    await press(page, 'Put down');
    await pad.getByText('25', { exact: true }).waitFor();
    await press(page, 'Back');
  });

  it('a part before the first piece has passed is told what to do first', async () => {
    await countOne(page, 'Good +1');
    await countOne(page, 'Good +1');
    await page
      .getByText(/has not passed, so 2 parts cannot be counted\. Check it and sign/)
      .waitFor();
    await press(page, 'Leave it out');
    expect((await runNow()).goodCount).toBe(1);
  });

  it('more than the batch is asked about before it is counted', async () => {
    const { id, quantity, stepGoodCount } = await runNow();
    const at = `/api/runs/${id}`;
    const task = await ask<Parameters<typeof sizesAsDrawn>[0]>(page, 'GET', `${at}/first-piece`);
    await ask(page, 'POST', `${at}/first-piece`, {
      ...{ sizes: sizesAsDrawn(task), visual: 'accepted' },
    });
    await ask(page, 'POST', `${at}/counts`, { good: quantity - stepGoodCount });
    await page.getByText(new RegExp(`^Saved: ${quantity} good`)).waitFor();
    await press(page, 'Good +1');
    const again = button(page, 'Yes, another one');
    const words = page.getByText(
      `${quantity + 1} good parts are more than the batch of ${quantity}.`,
    );
    await again.or(words).first().waitFor();
    if (await again.isVisible()) await again.click();
    await words.waitFor();
    await press(page, 'No');
    await page.getByText(new RegExp(`^Saved: ${quantity} good`)).waitFor();
    expect((await runNow()).goodCount).toBe(quantity);
  });

  it('a photo of 40 MB is made small at the tablet and sent; what is no photo is said to be none', async () => {
    const huge = png(8_000, 5_000, 128, 0);
    expect(huge.length).toBeGreaterThan(40_000_000);
    await press(page, 'Raise NCR');
    await press(page, 'Surface pore');
    const camera = page.locator('aside.acts input[type=file]');
    const take = async (name: string, content: Buffer): Promise<void> => {
      await writeFile(path.join(folder, name), content);
      await camera.setInputFiles(path.join(folder, name));
    };
    await take('noise.jpg', Buffer.alloc(40_000_000, 7));
    await page.getByText('This tablet cannot read that photo. Take it again').waitFor();
    const sent = page.waitForRequest((asked) => asked.url().includes('/api/files?'));
    await take('weld.png', huge);
    await page.getByRole('img', { name: 'Photo 1' }).waitFor();
    const answer = await (await sent).response();
    expect(await answer?.json()).toMatchObject({
      ...{ media: 'image/jpeg', widthPx: 2048, heightPx: 1280 },
    });
    expect(await page.getByText('cannot read that photo').count()).toBe(0);
    await page.locator('aside.acts').getByRole('button', { name: 'Back', exact: true }).click();
    await page.locator('aside.acts').getByRole('button', { name: 'Back', exact: true }).click();
  });

  it('a job that was taken away while the tablet had no network keeps what was done, in words', async () => {
    const { id, jobStepId, scrapCount } = await runNow();
    await page.evaluate(async () => navigator.serviceWorker.ready);
    await page.context().setOffline(true);
    await countOne(page, 'Scrap +1').catch(() => undefined);
    await page.getByText(/1 scrap in this run; 1 not sent yet/).waitFor();
    await press(page, 'Note');
    await field(page, 'Note').fill('Jaw 2 slips');
    await press(page, 'Save the note');
    const coordinator = await openAs(browser, 'C01', { address: tool.address });
    const memory = await ask<SetUpMemory>(page, 'GET', `/api/job-steps/${jobStepId}/memory`);
    await ask(coordinator.page, 'POST', `/api/runs/${id}/close-out`, {
      programRevision: memory.programAtStart,
    });
    await ask(coordinator.page, 'POST', `/api/runs/${id}/put-down`, { batchComplete: true });
    await coordinator.close();
    await page.context().setOffline(false);
    const list = page.getByRole('region', { name: 'The server did not take this' });
    await list.getByText('Scrap +1').waitFor();
    await list.getByText('Note: Jaw 2 slips').waitFor();
    await list
      .getByText(/^This run of job .* has ended/)
      .first()
      .waitFor();
    await page.reload();
    await list.getByText('Note: Jaw 2 slips').waitFor();
    const run = await ask<Run>(page, 'GET', `/api/runs/${id}`);
    expect([run.scrapCount, run.handOverNote]).toEqual([scrapCount, null]);
  });

  it('a tablet that is no longer registered says so at the PIN', async () => {
    await press(page, 'Sign out');
    await page
      .getByText('Sign in to pull')
      .or(page.getByText('Sign in to go on'))
      .first()
      .waitFor();
    await press(page, 'Sign in to pull');
    await press(page, /O03/);
    const manager = await openAs(browser, 'M01', { address: tool.address });
    const { tablets } = await ask<ReplyOf<typeof people.tablets>>(
      ...([manager.page, 'GET', '/api/tablets'] as const),
    );
    for (const { id } of tablets) await ask(manager.page, 'DELETE', `/api/tablets/${id}`);
    await manager.close();
    await typeOnPad(page, pin);
    await page.getByText(/works at a registered cell tablet only\. Ask the manager/).waitFor();
  });

  it('a device that was never registered asks for a password', async () => {
    const stranger = await openScreen(browser, { address: tool.address });
    await stranger.page.goto('/cell/R1');
    await field(stranger.page, 'Password').waitFor();
    expect(await button(stranger.page, 'Sign in with a PIN').count()).toBe(0);
    await stranger.close();
  });
});
