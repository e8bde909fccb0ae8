import type {
  Board,
  Cell,
  FirstPieceTask,
  Job,
  orders,
  parts,
  ReplyOf,
  Revision,
  Run,
} from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { sizesAsDrawn } from '../support/make-batch.js';
import { boothStep, fillet } from '../support/repeat-part.js';
import { faultsOn } from './support/axe.js';
import { startBrowser, type Screen } from './support/browser.js';
import { ask, openAs, openTablet, pinOf } from './support/demo-people.js';
import { startTool, type Tool } from './support/tool.js';

const welder = 'W03';

let tool: Tool;
let browser: Browser;
let office: Screen;
let quality: Screen;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  const { address } = tool;
  office = await openAs(browser, 'S01', { address });
  quality = await openAs(browser, 'Q02', { address });
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** One part at a booth, and somebody to witness it within three quarters of an hour. */
async function witnessedJob(page: Page): Promise<Job> {
  const part = await ask<ReplyOf<typeof parts.add>>(page, 'POST', '/api/parts', {
    ...{ number: 'WP-100', name: 'Trial frame', coded: false },
  });
  const draft = await ask<Revision>(page, 'POST', `/api/parts/${part.id}/revisions`, {
    ...{ label: 'A', drawingNumber: 'WP-100-1' },
  });
  const at = `/api/revisions/${draft.id}`;
  const put = async (what: string, data: object): Promise<Revision> => {
    const headers = { 'idempotency-key': crypto.randomUUID() };
    const answer = await page.request.put(`${at}/${what}`, { headers, data });
    return (await answer.json()) as Revision;
  };
  const steps = [{ ...boothStep, name: 'Align', wpsNumber: 'WPS-009', witnessMin: 45 }];
  const welds = [fillet];
  const stepped = await put('steps', { expectedVersion: draft.version, steps });
  const { version } = await put('welds', { expectedVersion: stepped.version, welds });
  await ask(page, 'POST', `${at}/release`, { expectedVersion: version, changeNote: 'for a trial' });
  const { customers } = await ask<ReplyOf<typeof parts.customers>>(page, 'GET', '/api/customers');
  const { lanes } = await ask<Board>(page, 'GET', '/api/board');
  // One that can do it and has nothing in work.
  const free = lanes.find(
    ({ cellCode, steps: queued }) =>
      ['M1', 'M2'].includes(cellCode) && queued.every(({ state }) => state !== 'held'),
  );
  const order = await ask<ReplyOf<typeof orders.add>>(page, 'POST', '/api/orders', {
    customerId: customers.find(({ active }) => active)?.id,
    customerOrder: 'WP-1',
    lines: [
      {
        ...{ partId: part.id, orderedRevision: 'A', quantity: 1 },
        cells: [{ stepNumber: 1, cellId: free?.cellId }],
        dueOn: new Date(Date.now() + 30 * 86_400_000).toISOString().slice(0, 10),
      },
    ],
  });
  return order.jobs[0]!;
}

/** Pulled, made and put down by the welder at the tablet of the booth where it waits. */
async function finish({ id: jobStepId, cellCode }: Job['steps'][number]): Promise<void> {
  const { address } = tool;
  const { page } = await openTablet(browser, cellCode, { address });
  const pin = await pinOf(browser, welder, address);
  await ask(page, 'POST', '/api/session/pin', { code: welder, pin });
  const { cells } = await ask<{ cells: Cell[] }>(page, 'GET', '/api/cells');
  const cell = cells.find(({ code }) => code === cellCode);
  const { run } = await ask<{ run: Run }>(page, 'POST', `/api/cells/${cell?.id}/pull`, {
    jobStepId,
  });
  await ask(page, 'POST', `/api/runs/${run.id}/as-shown`, { program: null });
  const task = await ask<FirstPieceTask>(page, 'GET', `/api/runs/${run.id}/first-piece`);
  await ask(page, 'POST', `/api/runs/${run.id}/first-piece`, {
    ...{ sizes: sizesAsDrawn(task), visual: 'accepted' },
  });
  await ask(page, 'POST', `/api/runs/${run.id}/counts`, { good: 1 });
  await ask(page, 'POST', `/api/runs/${run.id}/put-down`, { batchComplete: true });
}

describe('a witness point', () => {
  it('calls QA on the screen that is open, and says until when', async () => {
    const job = await witnessedJob(office.page);
    const step = job.steps[0]!;
    await quality.page.goto('/board');
    await quality.page.getByRole('heading', { level: 1 }).waitFor();
    const call = quality.page.getByRole('status').filter({ hasText: `job ${job.number}` });
    expect(await call.count()).toBe(0);
    await finish(step);
    await call
      .getByText(
        /^Witness point at M\d: job \d+, after step 1 \(Align\)\. Work goes on at .* if nobody comes\.$/,
      )
      .waitFor();
    expect(await faultsOn(quality.page)).toEqual([]);
  });
});
