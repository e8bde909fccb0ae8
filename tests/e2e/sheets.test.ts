import type { Board, QueuedStep } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { readPdf } from '../support/read-pdf.js';
import { enhancedContrast, faultsOn } from './support/axe.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { ask, openAs, openTablet } from './support/demo-people.js';
import { button, dialog, field } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });

describe('a scan at the cell', () => {
  let screen: Screen;
  let page: Page;
  let here: QueuedStep;
  let elsewhere: QueuedStep;

  beforeAll(async () => {
    screen = await openTablet(browser, 'R1', { address: tool.address, size: tabletSize });
    page = screen.page;
    const { lanes } = await ask<Board>(page, 'GET', '/api/board');
    const waiting = (code: string) =>
      lanes.find(({ cellCode }) => cellCode === code)?.steps.filter((s) => s.state === 'waiting') ??
      [];
    const jobsHere = new Set(waiting('R1').map(({ jobId }) => jobId));
    here = waiting('R1').at(-1) as QueuedStep;
    elsewhere = lanes
      .flatMap(({ steps }) => steps)
      .find(({ jobId }) => !jobsHere.has(jobId)) as QueuedStep;
    await page.goto('/');
    await button(page, 'Sign in to pull').waitFor();
  });
  afterAll(async () => screen.close());

  it('opens the step of the job although no field was chosen before', async () => {
    await page.keyboard.type(`/orders/jobs/${here.jobId}`);
    await page.keyboard.press('Enter');
    await heading(page, `Opened: job ${here.jobNumber}`).waitFor();
    expect(await page.getByText(here.partNumber).count()).toBeGreaterThan(0);
    expect(await faultsOn(page)).toEqual([]);
    expect(await faultsOn(page, enhancedContrast)).toEqual([]);
    await button(page, 'Back to what is next').click();
    await heading(page, 'This is next').waitFor();
  });

  it('opens it by the number of the job too', async () => {
    await field(page, 'Scan or type a job').fill(String(here.jobNumber));
    await button(page, 'Open').click();
    await heading(page, `Opened: job ${here.jobNumber}`).waitFor();
    await button(page, 'Back to what is next').click();
  });

  it('answers a foreign code and a job of another cell in words, and keeps what was typed', async () => {
    const code = field(page, 'Scan or type a job');
    await code.fill('W07/O’Neil <b>');
    await page.keyboard.press('Enter');
    await page.getByText('“W07/O’Neil <b>” is not the code of a job.').waitFor();
    expect(await code.inputValue()).toBe('W07/O’Neil <b>');
    await code.fill(String(elsewhere.jobNumber));
    await page.keyboard.press('Enter');
    await page
      .getByText(`Job ${elsewhere.jobNumber} has no step waiting at R1. It waits at`)
      .waitFor();
    expect(screen.complaints()).toEqual([]);
  });
});

it('links each sheet from its screen, in a tab of its own', async () => {
  const { page, close } = await openAs(browser, 'C01', { address: tool.address });
  const { wpss } = await ask<{ wpss: { id: string }[] }>(page, 'GET', '/api/wpss?state=approved');
  const { wpqrs } = await ask<{ wpqrs: { id: string }[] }>(page, 'GET', '/api/wpqrs');
  const { certificates } = await ask<{ certificates: { personId: string }[] }>(
    ...([page, 'GET', '/api/certificates'] as const),
  );
  const { lanes } = await ask<Board>(page, 'GET', '/api/board');
  const jobId = lanes.flatMap(({ steps }) => steps)[0]?.jobId ?? '';
  const job = await ask<{ partId: string; revisionId: string }>(page, 'GET', `/api/jobs/${jobId}`);
  const screens: [string, RegExp, string][] = [
    [`/procedures/${wpss[0]?.id}`, /^Print sheet/, 'Welding procedure specification'],
    [`/procedures/records/${wpqrs[0]?.id}`, /^Print sheet/, 'Procedure qualification record'],
    [`/people/${certificates[0]?.personId}`, /^Print sheet/, 'Certificates of a person'],
    [`/orders/jobs/${jobId}`, /^Print traveler/, 'Traveler'],
    [`/parts/${job.partId}/revisions/${job.revisionId}`, /^Print sheet/, 'Set-up sheet'],
  ];
  for (const [at, name, title] of screens) {
    await page.goto(at);
    const link = page.getByRole('link', { name }).first();
    await link.waitFor();
    expect(await link.getAttribute('target'), at).toBe('_blank');
    const answer = await page.request.get((await link.getAttribute('href')) ?? '');
    expect(answer.headers()['content-type'], at).toBe('application/pdf');
    expect((await readPdf(await answer.body())).text, at).toContain(title);
  }
  await close();
});

it('lets the coordinator change a rule by keyboard alone', async () => {
  const { page, close } = await openAs(browser, 'C01', { address: tool.address });
  await page.goto('/policy');
  const change = button(page, 'Change the rule for voltage');
  await change.focus();
  await page.keyboard.press('Enter');
  const form = dialog(page, 'Rule for voltage');
  await form.waitFor();
  await field(form, 'Outside').focus();
  await page.keyboard.type('Refuse');
  await field(form, 'Reason').focus();
  await page.keyboard.type('agreed in the welding meeting');
  expect(await faultsOn(page)).toEqual([]);
  await button(form, 'Sign the change').focus();
  await page.keyboard.press('Enter');
  await page.getByText('The rule for voltage is changed.').waitFor();
  const row = page.getByRole('row', { name: /^voltage/ });
  expect(await row.textContent()).toContain('Refuse');
  await close();
});
