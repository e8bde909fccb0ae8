import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { daysAgo } from './steps/certificates.js';
import { addPart, releaseRevision, takeOrderByKeyboard } from './steps/parts.js';
import {
  approve,
  changeRange,
  openProcedure,
  reviseProcedure,
  saveProcedure,
  saveRecord,
  typeProcedure,
  typeRange,
  typeTest,
} from './steps/procedures.js';
import { signInByPin } from './steps/welder.js';
import { faultsOn } from './support/axe.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { openAs, openTablet, pinOf } from './support/demo-people.js';
import { button, dialog, press } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

const record = 'PQ-50';
const procedure = 'WPS-050';
const part = { number: 'QW-5', name: 'Walk bracket', customer: 'Alder', alias: 'QZ-5' };

let tool: Tool;
let browser: Browser;
let quality: Screen;
let coordinator: Screen;
let office: Screen;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  const { address } = tool;
  quality = await openAs(browser, 'Q02', { address });
  coordinator = await openAs(browser, 'C01', { address });
  office = await openAs(browser, 'S01', { address });
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

describe('the walk of QA, from a test record to the cell', () => {
  it('a range printed wider than the rule gives is a question, answered from the sheet', async () => {
    const { page } = quality;
    await typeTest(page, { number: record, thickness: '12', butt: true });
    await typeRange(page, 'Thickness', '3', '30');
    const rule = page.getByRole('note', { name: 'What the rule gives for Thickness' });
    await rule.getByText('printed 3 to 30 mm, the rule gives 3 to 24 mm').waitFor();
    await rule.getByText('Ask', { exact: true }).waitFor();
    expect(await faultsOn(page)).toEqual([]);
    await typeRange(page, 'Thickness', '3', '24');
    await rule.getByText('Agrees', { exact: true }).waitFor();
    await saveRecord(page, record);
  });

  it('a draft beyond its record names the variable, and its writer cannot approve it', async () => {
    const { page } = quality;
    await typeProcedure(page, procedure, record);
    await typeRange(page, 'Thickness', '3', '26');
    await saveProcedure(page, procedure);
    const beyond = page.getByRole('row', { name: /Thickness 3 to 26 mm 3 to 24 mm PQ-50/i });
    await beyond.waitFor();
    expect(await button(page, 'Approve …').count()).toBe(0);
    expect(await faultsOn(page)).toEqual([]);
  });

  it('the coordinator is stopped by the breach, by name, before anything is signed', async () => {
    const { page } = coordinator;
    await openProcedure(page, `${procedure} r1`);
    await press(page, 'Approve …');
    await press(dialog(page), 'Sign the approval');
    await page
      .getByText(/goes beyond the records behind it: thickness 3 to 26 mm, PQ-50 allows 3 to 24 mm/)
      .waitFor();
    await page.keyboard.press('Escape');
    await page.getByText('Draft', { exact: true }).waitFor();
  });

  it('mended by QA, it is approved by the coordinator, who did not write it', async () => {
    await changeRange(quality.page, 'Thickness', '3', '24');
    await quality.page.getByText('Within the records behind it').waitFor();
    await approve(coordinator.page, `${procedure} r1`);
    await coordinator.page
      .getByText(/approved by Conrad Velleby/)
      .first()
      .waitFor();
  });

  it('a coordinator who changed a draft does not approve it', async () => {
    const { page } = coordinator;
    await openProcedure(page, 'WPS-031 r1');
    await changeRange(page, 'Travel', '310', '560');
    await press(page, 'Approve …');
    await press(dialog(page), 'Sign the approval');
    await page.getByText(/You wrote or changed WPS-031 revision 1 yourself/).waitFor();
  });

  it('the office makes a part by it and takes an order', async () => {
    const { page } = office;
    await addPart(page, part);
    await releaseRevision(page, procedure);
    await takeOrderByKeyboard(page, {
      ...{ alias: part.alias, part: part.number, quantity: '6', number: 'AL-0950' },
      dueOn: daysAgo(-14),
    });
  });

  it('the next revision shows the part and the queued job, and what it would no longer cover', async () => {
    const { page } = quality;
    await reviseProcedure(page, `${procedure} r1`, `${procedure} r2`);
    const touched = page.locator('section').filter({ hasText: 'Parts and jobs it touches' });
    await touched.getByRole('link', { name: `${part.number} · rev A` }).waitFor();
    const job = touched.getByRole('row', { name: new RegExp(`Job \\d+ ${part.number} M\\d`) });
    await job.getByText('Covered', { exact: true }).waitFor();
    await changeRange(page, 'Thickness', '8', '24');
    await job.getByText('Not covered', { exact: true }).waitFor();
    await job.getByText(/thickness.* 6 mm/i).waitFor();
    expect(await faultsOn(page)).toEqual([]);
    await changeRange(page, 'Thickness', '3', '24');
    await job.getByText('Covered', { exact: true }).waitFor();
  });

  it('the coordinator reads how many jobs it touches, signs, and the first is superseded', async () => {
    const { page } = coordinator;
    await openProcedure(page, `${procedure} r2`);
    await press(page, 'Approve …');
    const form = dialog(page, `Approve ${procedure} r2`);
    await form
      .getByText(
        'Queued jobs that name it: 1. No longer covered: 0. Running under the revision before: 0.',
      )
      .waitFor();
    await press(form, 'Sign the approval');
    await page.getByText('The procedure is approved and may be used.').waitFor();
    await openProcedure(quality.page, `${procedure} r1`);
    await quality.page.getByText('Superseded', { exact: true }).waitFor();
  });

  it('at the cell a lapsed confirmation stops the operator, who is told why and who may', async () => {
    const { address } = tool;
    const pin = await pinOf(browser, 'O05', address);
    const { page } = await openTablet(browser, 'R1', { address, size: tabletSize });
    await page.goto('/');
    await signInByPin(page, /O05/, pin);
    const main = page.locator('main');
    await main
      .getByText(/O05 Osric Tallow: .*confirmation.*/)
      .first()
      .waitFor();
    await main
      .getByText(/Qualified today: O03 Orla Winterbeck/)
      .first()
      .waitFor();
    expect(await button(page, 'Pull').count()).toBe(0);
  });
});
