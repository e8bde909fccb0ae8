import type { Locator, Page } from 'playwright-core';
import { choose, dialog, field, fill, press } from '../support/hands.js';
import { daysAgo } from './certificates.js';

/** Limits as printed on the record, inclusive. */
const ranges: Readonly<Record<string, readonly [from: string, to: string]>> = {
  Thickness: ['3', '12'],
  'Throat a': ['3', '6'],
  'Wire diameter': ['1,2', '1,2'],
  Current: ['200', '280'],
  Voltage: ['22', '30'],
  'Wire speed': ['6', '10,5'],
  Travel: ['300', '560'],
  'Heat input': ['0,45', '1,5'],
};

interface TestToType {
  readonly number: string;
  readonly thickness?: string;
  /** A butt weld in several runs, not a fillet in one. */
  readonly butt?: boolean;
}

/** A procedure test with its piece, its values and the range printed on the signed sheet. */
export async function recordTest(page: Page, number: string): Promise<void> {
  await typeTest(page, { number });
  await saveRecord(page, number);
}

/** All of a procedure test as it is typed from the sheet; nothing is saved. */
export async function typeTest(page: Page, test: TestToType): Promise<void> {
  const { number, thickness = '6', butt = false } = test;
  await page.goto('/procedures/records/new');
  await page.getByRole('heading', { name: 'Record a procedure test' }).waitFor();
  const head = section(page, 'Tested on');
  const piece = section(page, 'Yield strength');
  const values = section(page, 'Preheat');
  await fill(head, {
    ...{ Number: number, Code: 'ISO 15614-1', Edition: '2017', Level: '2', Process: '135' },
    ...{ Filler: 'G3Si1', Gas: 'M21', Examiner: 'Works examiner', 'Tested on': daysAgo(260) },
  });
  await choose(head, 'Mechanisation', 'Partly mechanised');
  await choose(piece, 'Joint', butt ? 'Butt' : 'Fillet');
  await choose(piece, 'Position', 'PB');
  await choose(piece, 'Runs', butt ? 'Several' : 'Single');
  await choose(piece, 'Impact demanded', /^\s*no\s*$/i);
  await fill(piece, { Thickness: thickness, Material: 'S355J2', 'Material group': '1.2' });
  if (!butt) await fill(piece, { 'Throat a': '4' });
  await fill(values, { Current: '240', Voltage: '26', 'Wire speed': '8,4', Travel: '420' });
  await fill(values, { 'Heat input': '0,713' });
  await press(page, 'Add a result');
  await field(page, 'Test').fill('Visual');
  await writeRanges(page, butt ? ['Butt', 'Fillet'] : ['Fillet']);
}

export async function saveRecord(page: Page, number: string): Promise<void> {
  await press(page, 'Save the record');
  await page.getByRole('heading', { name: new RegExp(`^${number} · ISO 15614-1`) }).waitFor();
}

async function writeRanges(page: Page, joints: readonly string[]): Promise<void> {
  const printed = section(page, 'Preheat at least');
  await fill(printed, {
    Process: '135',
    'Material group': '1.1, 1.2',
    Filler: 'G3Si1',
    Gas: 'M21',
  });
  for (const choice of ['Partly mechanised', ...joints, 'PA', 'PB'])
    await printed.getByRole('checkbox', { name: choice, exact: true }).check();
  for (const [name, [from, to]] of Object.entries(ranges)) await typeRange(page, name, from, to);
}

export async function typeRange(page: Page, name: string, from: string, to: string): Promise<void> {
  const printed = section(page, 'Preheat at least');
  await fill(printed.getByRole('group', { name, exact: true }), { From: from, To: to });
}

/** The card of a form in which a field stands. */
function section(page: Page, label: string): Locator {
  return page.locator('section.card').filter({ has: field(page, label) });
}

/** Writes a procedure as a draft on its record, whose ranges are taken over. */
export async function writeProcedure(page: Page, number: string, record: string): Promise<void> {
  await typeProcedure(page, number, record);
  await saveProcedure(page, number);
  await page.getByText('Within the records behind it').waitFor();
}

export async function typeProcedure(page: Page, number: string, record: string): Promise<void> {
  await page.goto('/procedures/new');
  await fill(page, { Number: number, Title: 'Fillet, booth', Code: 'ISO 15614-1:2017' });
  await page.getByRole('checkbox', { name: new RegExp(`^${record}`) }).check();
  await press(page, `Take the ranges of ${record} over`);
}

export async function saveProcedure(page: Page, number: string): Promise<void> {
  await press(page, 'Save the draft');
  await page.getByRole('heading', { name: `${number} r1 · Fillet, booth` }).waitFor();
}

/** Changes one range of the draft that is open. */
export async function changeRange(page: Page, name: string, from: string, to: string) {
  await press(page, 'Change the draft');
  await typeRange(page, name, from, to);
  await press(page, 'Save the draft');
  await page.getByText('The draft is saved.').waitFor();
}

export async function openProcedure(page: Page, label: string): Promise<void> {
  await page.goto('/procedures');
  await page.getByRole('link', { name: label, exact: true }).click();
  await page.getByRole('heading', { name: new RegExp(`^${label} ·`) }).waitFor();
}

export async function approve(page: Page, label: string): Promise<void> {
  await openProcedure(page, label);
  await press(page, 'Approve …');
  await press(dialog(page, `Approve ${label}`), 'Sign the approval');
  await page.getByText('The procedure is approved and may be used.').waitFor();
}

/** Starts the next revision as a draft and narrows its travel. */
export async function reviseProcedure(page: Page, label: string, next: string): Promise<void> {
  await openProcedure(page, label);
  await press(page, 'Start the next revision');
  const form = dialog(page, `Next revision of ${label}`);
  await fill(form, { 'What changed': 'Travel narrowed after undercut was seen' });
  await press(form, 'Start the next revision');
  await page.getByRole('heading', { name: new RegExp(`^${next} ·`) }).waitFor();
  await changeRange(page, 'Travel', '350', '500');
}

export async function withdraw(page: Page, label: string): Promise<void> {
  await openProcedure(page, label);
  await press(page, 'Withdraw from use');
  const form = dialog(page, `Withdraw ${label}`);
  await fill(form, { Reason: 'A new procedure is being tested' });
  await press(form, 'Withdraw from use');
  await page.getByText('The procedure is withdrawn from use.').waitFor();
}
