import path from 'node:path';
import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { faultsOn } from './support/axe.js';
import {
  officeSize,
  openScreen,
  startBrowser,
  tabletSize,
  type Screen,
} from './support/browser.js';
import { ask, openAs, openTablet, pinOf } from './support/demo-people.js';
import { press, typeOnPad } from './support/hands.js';
import { startAsShown } from './steps/welder.js';
import { startTool, type Tool } from './support/tool.js';

const pictures = fileURLToPath(new URL('./pictures', import.meta.url));
/** Sizes change where things stand and themes change colours, so that two views show both of both. */
const views = [
  { view: 'office-light', viewport: officeSize, theme: 'light' },
  { view: 'tablet-dark', viewport: tabletSize, theme: 'dark' },
] as const;

let tool: Tool;
let browser: Browser;
const screens = new Map<string, Screen>();

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
    mkdir(pictures, { recursive: true }),
  ]);
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

interface Place {
  readonly name: string;
  /** Whose screen it is; `nobody` is a computer at which nobody is signed in. */
  readonly as: string;
  readonly at: string | ((page: Page) => Promise<string>);
  /** What stands on it once it has been drawn. */
  readonly shows: string | RegExp;
}

const places: readonly Place[] = [
  { name: 'sign-in', as: 'nobody', at: '/sign-in', shows: 'Sign in' },
  { name: 'board', as: 'S01', at: '/board', shows: 'Board' },
  { name: 'orders', as: 'S01', at: '/orders', shows: 'Orders' },
  { name: 'order-new', as: 'S01', at: '/orders/new', shows: 'New order' },
  { name: 'job', as: 'S01', at: firstJob, shows: /Job \d+/ },
  { name: 'to-clear', as: 'S01', at: '/to-clear', shows: 'To clear' },
  { name: 'parts', as: 'S01', at: '/parts', shows: 'Parts' },
  { name: 'part', as: 'S01', at: partPage, shows: /X-210-01/ },
  { name: 'revision', as: 'S01', at: revisionPage, shows: /X-210-01 · rev B/ },
  { name: 'revision-draft', as: 'S01', at: draftRevisionPage, shows: /X-210-02 · rev C/ },
  { name: 'fixtures', as: 'S01', at: '/fixtures', shows: 'Fixtures' },
  { name: 'consumables', as: 'S01', at: '/consumables', shows: 'Consumables' },
  { name: 'customers', as: 'S01', at: '/customers', shows: 'Customers' },
  { name: 'cell-choice', as: 'S01', at: '/cell', shows: 'Which cell?' },
  { name: 'cell-read-only', as: 'S01', at: '/cell/R2', shows: /^R2/ },
  { name: 'cell-facts', as: 'S01', at: cellPage, shows: /^R1/ },
  { name: 'procedures', as: 'Q02', at: '/procedures', shows: 'Procedures' },
  { name: 'procedure', as: 'Q02', at: procedurePage, shows: /WPS-014/ },
  { name: 'procedure-new', as: 'Q02', at: '/procedures/new', shows: 'Write a procedure' },
  { name: 'records', as: 'Q02', at: '/procedures/records', shows: 'Qualification records' },
  { name: 'record', as: 'Q02', at: recordPage, shows: /ISO 15614/ },
  {
    name: 'tests-that-pay',
    as: 'Q02',
    at: '/procedures/tests-that-pay',
    shows: 'Tests that would pay',
  },
  { name: 'record-new', as: 'Q02', at: '/procedures/records/new', shows: /Record a procedure/ },
  { name: 'policy', as: 'C01', at: '/policy', shows: /^What stops work/ },
  { name: 'certificate-new', as: 'Q02', at: certificatePage, shows: 'Record a certificate' },
  { name: 'person-seen-by-coordinator', as: 'C01', at: personPage, shows: /W07/ },
  { name: 'quality', as: 'Q02', at: '/quality', shows: 'Quality' },
  { name: 'quality-in-office', as: 'S01', at: '/quality', shows: 'Quality' },
  { name: 'ncr', as: 'C01', at: ncrPage, shows: /^NCR \d+/ },
  { name: 'ncr-to-inspect', as: 'C01', at: reworkedNcrPage, shows: /^NCR \d+/ },
  { name: 'containment', as: 'Q02', at: '/quality/containment', shows: 'What shares a cause' },
  { name: 'people', as: 'M01', at: '/people', shows: 'People' },
  { name: 'person', as: 'M01', at: personPage, shows: /W07/ },
  { name: 'cells', as: 'M01', at: '/cells', shows: 'Cells' },
  { name: 'cell-new', as: 'M01', at: '/cells/new', shows: 'Add a cell' },
  { name: 'cell-entry', as: 'M01', at: cellPage, shows: /^R1/ },
  { name: 'tablets', as: 'M01', at: '/tablets', shows: 'Tablets' },
  { name: 'settings', as: 'M01', at: '/settings', shows: 'Settings' },
  { name: 'week', as: 'M01', at: '/week', shows: /^Week/ },
  { name: 'week-before', as: 'M01', at: lastWeek, shows: /^Week/ },
  { name: 'capacity', as: 'M01', at: '/capacity', shows: 'Capacity' },
  { name: 'capacity-takt', as: 'M01', at: '/capacity?family=BR', shows: 'Capacity' },
  { name: 'method', as: 'S01', at: '/method', shows: 'How the figures are worked out' },
  { name: 'method-page', as: 'S01', at: '/method/procedure-ranges', shows: /^Ranges of/ },
  { name: 'method-sources', as: 'S01', at: '/method/sources', shows: 'Sources' },
  { name: 'account', as: 'M01', at: '/account', shows: 'Your entry' },
  { name: 'no-such-page', as: 'M01', at: '/nowhere', shows: 'There is no page at this address' },
];

describe('every screen in the office, at both sizes, light and dark', () => {
  it.each(places)('$name', async ({ name, as, at, shows }) => {
    const screen = await screenOf(as);
    const { page } = screen;
    screen.complaints();
    await page.goto(typeof at === 'string' ? at : await at(page));
    await page.getByRole('heading', { name: shows }).first().waitFor();
    await settled(page);
    expect(await examine(screen, name)).toEqual([]);
  });
});

describe('every state of the tablet at the cell, at both sizes, light and dark', () => {
  it('nobody signed in, signing in, what is next, and all that the one who holds it can do', async () => {
    const pin = await pinOf(browser, 'O03', tool.address);
    const screen = await openTablet(browser, 'R1', { address: tool.address, size: tabletSize });
    const { page } = screen;
    const found: string[] = [];
    const look = async (name: string) => {
      await settled(page);
      found.push(...(await examine(screen, name)));
    };
    screen.complaints();
    await page.goto('/');
    await page.getByRole('heading', { name: 'This is next' }).waitFor();
    await look('at-cell-signed-out');
    await press(page, 'Sign in to pull');
    await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
    await look('at-cell-who-pulls');
    await press(page, /O03/);
    await look('at-cell-pin-to-pull');
    await press(page, 'Back');
    await page.getByRole('link', { name: 'Sign in' }).click();
    await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
    await look('at-cell-who');
    await press(page, /O03/);
    await look('at-cell-pin');
    await typeOnPad(page, pin);
    await page.getByRole('button', { name: 'Pull' }).waitFor();
    await look('at-cell-next');
    await press(page, 'Pull');
    await page.getByRole('heading', { name: 'In work here' }).waitFor();
    await look('at-cell-start');
    await startAsShown(page);
    await look('at-cell-held');
    for (const [act, name] of [
      ['Check the first piece', 'at-cell-first-piece'],
      ['Raise NCR', 'at-cell-ncr'],
      ['Readings', 'at-cell-readings'],
      ['Stop', 'at-cell-stop'],
      ['Hand over', 'at-cell-hand-over'],
      ['Put down', 'at-cell-put-down'],
    ] as const) {
      await press(page, act);
      await look(name);
      await press(page, 'Back');
    }
    expect(found).toEqual([]);
  });
});

async function screenOf(as: string): Promise<Screen> {
  const known = screens.get(as);
  if (known !== undefined) return known;
  const options = { address: tool.address };
  const screen =
    as === 'nobody' ? await openScreen(browser, options) : await openAs(browser, as, options);
  screens.set(as, screen);
  return screen;
}

/** Drawn, and no answer of the server outstanding; the live stream stays open for good. */
async function settled(page: Page): Promise<void> {
  await page.locator('main').waitFor();
  await page.waitForFunction(() => !document.body.innerText.includes('Asking the server'));
  await page.evaluate(async () => document.fonts.ready);
  await page.waitForTimeout(150);
}

/** Looks at the page in both views, and keeps a picture of each for people to look at. */
async function examine({ page, complaints }: Screen, name: string): Promise<readonly string[]> {
  const found: string[] = [];
  for (const { view, viewport, theme } of views) {
    await page.evaluate((wanted) => {
      if (wanted === 'dark') document.documentElement.dataset['theme'] = 'dark';
      else delete document.documentElement.dataset['theme'];
    }, theme);
    await page.setViewportSize(viewport);
    const told = [...(await faultsOn(page)), ...(await sideways(page)), ...complaints()];
    found.push(...told.map((fault) => `${name}, ${view}: ${fault}`));
    const file = path.join(pictures, `${name}-${view}.png`);
    await page.screenshot({ path: file, fullPage: true, caret: 'initial', animations: 'allow' });
  }
  return found;
}

/** Nothing makes the page itself scroll sideways. */
async function sideways(page: Page): Promise<readonly string[]> {
  const { wide, room } = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth,
    room: document.documentElement.clientWidth,
  }));
  return wide > room ? [`the page is ${wide} px wide on ${room} px`] : [];
}

async function firstJob(page: Page): Promise<string> {
  const { lanes } = await ask<{ lanes: { steps: { jobId: string }[] }[] }>(
    page,
    'GET',
    '/api/board',
  );
  return `/orders/jobs/${lanes.flatMap(({ steps }) => steps)[0]?.jobId ?? ''}`;
}

async function partPage(page: Page): Promise<string> {
  const { parts } = await ask<{ parts: { id: string }[] }>(page, 'GET', '/api/parts?search=Y-88');
  return `/parts/${parts[0]?.id ?? ''}`;
}

async function partOf(page: Page, search: string) {
  const found = await ask<{ parts: { id: string }[] }>(page, 'GET', `/api/parts?search=${search}`);
  const path = `/api/parts/${found.parts[0]?.id ?? search}`;
  return ask<{ id: string; revisions: { id: string }[] }>(page, 'GET', path);
}

async function revisionPage(page: Page): Promise<string> {
  const { id, revisions } = await partOf(page, 'Y-88');
  return `/parts/${id}/revisions/${revisions[0]?.id ?? ''}`;
}

/** A draft, because only a draft shows the weld list and the steps as fields. */
async function draftRevisionPage(page: Page): Promise<string> {
  const { id, revisions } = await partOf(page, 'X-210-02');
  const draft = await ask<{ id: string }>(page, 'POST', `/api/parts/${id}/revisions`, {
    label: 'C',
    drawingNumber: 'D-X-210-02',
    copyFromRevisionId: revisions[0]?.id,
  });
  return `/parts/${id}/revisions/${draft.id}`;
}

async function recordPage(page: Page): Promise<string> {
  const { wpqrs } = await ask<{ wpqrs: { id: string }[] }>(page, 'GET', '/api/wpqrs');
  return `/procedures/records/${wpqrs[0]?.id ?? ''}`;
}

async function procedurePage(page: Page): Promise<string> {
  const { wpss } = await ask<{ wpss: { id: string; number: string; state: string }[] }>(
    page,
    'GET',
    '/api/wpss?state=approved',
  );
  return `/procedures/${wpss.find(({ number }) => number === 'WPS-014')?.id ?? ''}`;
}

async function idOfPerson(page: Page): Promise<string> {
  const { people } = await ask<{ people: { id: string; code: string }[] }>(
    page,
    'GET',
    '/api/people',
  );
  return people.find(({ code }) => code === 'W07')?.id ?? '';
}

async function personPage(page: Page): Promise<string> {
  return `/people/${await idOfPerson(page)}`;
}

async function certificatePage(page: Page): Promise<string> {
  return `/people/${await idOfPerson(page)}/certificate`;
}

async function cellPage(page: Page): Promise<string> {
  const { cells } = await ask<{ cells: { id: string; code: string }[] }>(page, 'GET', '/api/cells');
  return `/cells/${cells.find(({ code }) => code === 'R1')?.id ?? ''}`;
}

async function lastWeek(page: Page): Promise<string> {
  const { from } = await ask<{ from: string }>(page, 'GET', '/api/week');
  const before = new Date(`${from}T00:00:00Z`);
  before.setUTCDate(before.getUTCDate() - 7);
  return `/week?from=${before.toISOString().slice(0, 10)}`;
}

interface NcrSeen {
  readonly id: string;
  readonly version: number;
}

/** Two parts of the job in work are porous, found by the coordinator. */
async function raiseNcr(page: Page): Promise<NcrSeen> {
  const { lanes } = await ask<{ lanes: { steps: { id: string; state: string }[] }[] }>(
    page,
    'GET',
    '/api/board',
  );
  const held = lanes.flatMap(({ steps }) => steps).find(({ state }) => state === 'held');
  return ask<NcrSeen>(page, 'POST', `/api/job-steps/${held?.id ?? ''}/ncrs`, {
    ...{ defect: 'surfacePore', quantity: 2, counted: true },
  });
}

async function ncrPage(page: Page): Promise<string> {
  return `/quality/ncrs/${(await raiseNcr(page)).id}`;
}

async function reworkedNcrPage(page: Page): Promise<string> {
  const { wpss } = await ask<{ wpss: { id: string }[] }>(page, 'GET', '/api/wpss?state=approved');
  const { id, version } = await raiseNcr(page);
  await ask(page, 'POST', `/api/ncrs/${id}/decisions`, {
    ...{ disposition: 'rework', quantity: 1, wpsId: wpss[0]?.id, expectedVersion: version },
    reason: 'pores ground out and welded again',
  });
  return `/quality/ncrs/${id}`;
}
