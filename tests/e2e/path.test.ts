import { readFile } from 'node:fs/promises';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { confirmCertificate, daysAgo, recordCertificate } from './steps/certificates.js';
import {
  addBooth,
  addPerson,
  issuePin,
  password,
  planEveryDay,
  registerTablet,
} from './steps/manager.js';
import {
  addCustomer,
  addPart,
  keepSetUp,
  loadConsumables,
  releaseRevision,
  takeOrderByKeyboard,
} from './steps/parts.js';
import {
  approve,
  openProcedure,
  recordTest,
  reviseProcedure,
  withdraw,
  writeProcedure,
} from './steps/procedures.js';
import {
  countOne,
  enterReadings,
  passFirstPiece,
  signInByPin,
  startAsShown,
} from './steps/welder.js';
import { openScreen, startBrowser, tabletSize, type Screen } from './support/browser.js';
import { button, fill, press, signIn, signOut } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

const welder = { code: 'W21', name: 'Ysolde Brannock', role: 'Welder or operator' };
const people = [
  { code: 'S21', name: 'Odo Fernhill', role: 'Office' },
  welder,
  { code: 'Q21', name: 'Bryn Tarrowgate', role: 'Quality' },
  { code: 'C21', name: 'Ilse Quillmoor', role: 'Quality', coordinator: true },
];
const part = { number: 'HB-7', name: 'Hanger bracket', customer: 'Larch', alias: 'Z-77' };

/**
 * Three parts, each with three welds of 250 mm and three of 125.5 mm at 420 mm/min: 1126.5 mm / 420 mm/min is
 * 2.682 min of arc for a part (length over travel speed, common practice).
 */
const arcHours = (3 * (3 * 250 + 3 * 125.5)) / 420 / 60;

let tool: Tool;
let browser: Browser;
let manager: Screen;
let office: Screen;
let quality: Screen;
let coordinator: Screen;
let tablet: Screen;
let pin = '';

beforeAll(async () => {
  [tool, browser] = await Promise.all([startTool({ empty: true }), startBrowser()]);
  const { address } = tool;
  [manager, office, quality, coordinator, tablet] = await Promise.all([
    openScreen(browser, { address }),
    openScreen(browser, { address }),
    openScreen(browser, { address }),
    openScreen(browser, { address }),
    openScreen(browser, { address, size: tabletSize }),
  ]);
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

describe('the whole path through the screens, as people walk it', () => {
  it('an empty shop asks for its first manager and keeps what was typed', async () => {
    const { page } = manager;
    await page.goto('/');
    await page.getByRole('heading', { name: 'Welcome: create the first manager' }).waitFor();
    await fill(page, { 'Your code': 'M21', 'Your name': 'Hale Ostergard', Password: 'short' });
    await press(page, 'Create and sign in');
    await page.getByText('must have at least 12 characters').first().waitFor();
    expect(await page.getByLabel(/Your name/).inputValue()).toBe('Hale Ostergard');
    await fill(page, { Password: password });
    await press(page, 'Create and sign in');
    await page.getByRole('heading', { name: 'People' }).waitFor();
  });

  it('the manager adds the people and gives them a way in', async () => {
    const { page } = manager;
    for (const person of people) await addPerson(page, person);
    await page.goto('/people');
    await page.getByRole('row', { name: /C21.*Quality, Welding coordinator/ }).waitFor();
    await Promise.all([
      signIn(office.page, 'S21', password),
      signIn(quality.page, 'Q21', password),
      signIn(coordinator.page, 'C21', password),
    ]);
  });

  it('the manager adds two booths, plans one of them, registers its tablet and issues a PIN', async () => {
    const { page } = manager;
    await addBooth(page, 'B2', 'Booth for odd jobs');
    await addBooth(page, 'B1', 'Booth by the gate');
    await planEveryDay(page);
    await signIn(tablet.page, 'M21', password);
    await registerTablet(tablet.page, 'B1', 'B1 at the post');
    await press(tablet.page, 'Sign out');
    await tablet.page.getByText('This queue is empty.').first().waitFor();
    pin = await issuePin(page, welder.code);
    expect(pin).toMatch(/^\d{6}$/);
  });

  it('QA records the certificate, and the coordinator confirms it', async () => {
    await recordCertificate(quality.page, welder.code);
    await confirmCertificate(coordinator.page, welder.code);
  });

  it('QA writes the procedure on its test record, and the coordinator approves it', async () => {
    await recordTest(quality.page, 'PQ-31');
    await writeProcedure(quality.page, 'WPS-31', 'PQ-31');
    expect(await button(quality.page, 'Approve …').count()).toBe(0);
    await approve(coordinator.page, 'WPS-31 r1');
  });

  it('the office adds the customer and the part with its other name, and releases a revision', async () => {
    const { page } = office;
    await addCustomer(page, part.customer);
    await addPart(page, part);
    await releaseRevision(page, 'WPS-31');
    await loadConsumables(page, 'B1');
    await keepSetUp(page, 'B1');
  });

  it('the office takes an order by keyboard alone, and an open board shows it by itself', async () => {
    await manager.page.goto('/board');
    const lane = manager.page.getByRole('group', { name: /Queue of B1/ });
    await lane.getByText('Nothing waits here.').waitFor();
    await takeOrderByKeyboard(office.page, {
      ...{ alias: part.alias, part: part.number, quantity: '6', number: 'LA-1201' },
      dueOn: daysAgo(-10),
    });
    await office.page.getByText(/HB-7, 6 parts, due .*, at B1/).waitFor();
    await lane.getByText('0 of 6 good').waitFor();
  });

  it('the welder sees what is next, the numbers to dial and that it fits, and pulls it', async () => {
    const { page } = tablet;
    await page.getByRole('heading', { name: 'This is next' }).waitFor();
    await signInByPin(page, `${welder.name} · ${welder.code}`, pin);
    const main = page.locator('main');
    for (const numbers of [/Wire speed\s*8\.4 m\/min/, /Voltage\s*26 V/, /Current\s*240 A/])
      await main.getByText(numbers).first().waitFor();
    await main
      .getByText(/Travel\s*420 mm\/min/)
      .first()
      .waitFor();
    await main
      .getByRole('img', { name: /cross-section to scale/ })
      .first()
      .waitFor();
    await main
      .getByText(/Does it fit the procedure\?\s*Inside/)
      .first()
      .waitFor();
    await press(page, 'Pull');
    await page.getByRole('heading', { name: 'In work here' }).waitFor();
    await startAsShown(page);
    await manager.page.getByText(`Held by ${welder.code}`).waitFor();
  });

  it('the welder counts one part, checks it as the first piece, and signs it', async () => {
    const { page } = tablet;
    await countOne(page, 'Good +1');
    await page.getByText('Saved: 1 good, 0 to rework, 0 scrap in this run').waitFor();
    await passFirstPiece(page, [1, 2]);
    expect(await button(page, 'Check the first piece').count()).toBe(0);
  });

  it('the welder counts on, stops with a reason and goes on', async () => {
    const { page } = tablet;
    await countOne(page, 'Good +1');
    await page.getByText('Saved: 2 good, 0 to rework, 0 scrap in this run').waitFor();
    await countOne(page, 'Scrap +1');
    await page.getByText('Saved: 2 good, 0 to rework, 1 scrap in this run').waitFor();
    await press(page, 'Stop');
    await press(page, 'Waiting for parts');
    await page.getByText(/Stopped since .*: Waiting for parts/).waitFor();
    await press(page, 'Go on');
    await button(page, 'Good +1').waitFor();
  });

  it('readings outside the procedure are kept as typed and answered in words', async () => {
    const { page } = tablet;
    await enterReadings(page, { Current: '295', Voltage: '26,5', Travel: '250' });
    await page.getByText('Saved as typed: Current 295 A, Voltage 26,5 V').waitFor();
    await page.getByText(/current 295 A is above 280/).waitFor();
    await page.getByText(/travel 250 mm\/min is below 300/).waitFor();
  });

  it('the welder puts the job down with two of six made, and signs out', async () => {
    const { page } = tablet;
    await press(page, 'Put down');
    await press(page, 'Put down, 2 of 6 made');
    await page.getByRole('heading', { name: 'This is next' }).waitFor();
    await page.getByText('2 of 6 good').first().waitFor();
    await signOut(page);
  });

  it('the manager sees the arc time of the week with its hours, as table, picture and file', async () => {
    const { page } = manager;
    await page.goto('/week');
    const arc = page.getByRole('region', {
      name: 'Arc time over planned, staffed and running time',
    });
    const worked = arc.getByRole('row', { name: /B1/ });
    await worked.getByText('0.1 h', { exact: true }).waitFor();
    expect(await worked.getByText(/^of [\d.]+ h$/).count()).toBe(3);
    const idle = arc.getByRole('row', { name: /B2/ });
    expect(await idle.getByRole('cell').allInnerTexts()).toEqual(
      expect.arrayContaining(['0.0 h', '–\nof 0.0 h']),
    );
    await page.getByRole('img', { name: /One bar per cell/ }).waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'This table as CSV' }).click(),
    ]);
    const table = await readFile(await download.path(), 'utf8');
    const [header = '', ...rows] = table.trim().split(/\r?\n/);
    const columns = header.split(',');
    const booth = rows.map((row) => row.split(',')).find((cells) => cells.includes('B1'));
    expect(Number(booth?.[columns.indexOf('arc [h]')])).toBeCloseTo(arcHours, 3);
    expect(booth?.[columns.indexOf('good [parts]')]).toBe('2');
    expect(booth?.[columns.indexOf('scrap [parts]')]).toBe('1');
  });

  it('a draft is not used, and once it is approved the one before it is not used either', async () => {
    const main = tablet.page.locator('main');
    await reviseProcedure(quality.page, 'WPS-31 r1', 'WPS-31 r2');
    await tablet.page.reload();
    await main.getByText('WPS-31 r1 Fillet, booth').waitFor();
    await approve(coordinator.page, 'WPS-31 r2');
    await main.getByText('WPS-31 r2 Fillet, booth').waitFor();
    await openProcedure(quality.page, 'WPS-31 r1');
    await quality.page.getByText('Superseded', { exact: true }).waitFor();
    expect(await button(coordinator.page, 'Approve …').count()).toBe(0);
  });

  it('a withdrawn procedure stops the step at the cell, with the reason in words', async () => {
    const { page } = tablet;
    await withdraw(coordinator.page, 'WPS-31 r2');
    await page.getByRole('heading', { name: 'Nothing ready here' }).waitFor();
    await page.getByText(/Procedure WPS-31 has no approved revision/).waitFor();
    await signInByPin(page, `${welder.name} · ${welder.code}`, pin);
    await page.getByRole('heading', { name: 'Nothing ready here' }).waitFor();
    expect(await button(page, 'Pull').count()).toBe(0);
  });
});
