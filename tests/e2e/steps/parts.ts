import type { consumables, ReplyOf } from '@tackboard/contract';
import type { Page } from 'playwright-core';
import { button, choose, dialog, field, fill, press } from '../support/hands.js';
import { ask } from '../support/demo-people.js';

export async function addCustomer(page: Page, name: string): Promise<void> {
  await page.goto('/customers');
  await press(page, 'Add a customer');
  const form = dialog(page, 'Add a customer');
  await fill(form, { Name: name });
  await press(form, 'Add a customer');
  await page.getByRole('row', { name }).waitFor();
}

export async function addPart(
  page: Page,
  part: { number: string; name: string; customer: string; alias: string },
): Promise<void> {
  await page.goto('/parts');
  await press(page, 'Add a part');
  const form = dialog(page, 'Add a part');
  await fill(form, { 'Part number': part.number, Name: part.name });
  await choose(form, 'Customer', part.customer);
  await choose(form, 'Comes back', 'Yes');
  await press(form, 'Add a part');
  await page.getByRole('heading', { name: `${part.number} · ${part.name}` }).waitFor();
  await fill(page, { 'Other name': part.alias });
  await choose(page, 'Used by', part.customer);
  await press(page, 'Add the name');
  await page.getByRole('listitem').filter({ hasText: part.alias }).waitFor();
}

/** A first revision with two rows in the weld list and one step, released for making. */
export async function releaseRevision(page: Page, wpsNumber: string): Promise<void> {
  await fill(page, { Revision: 'A', 'Drawing number': 'D-HB-7' });
  await press(page, 'Start the revision');
  await page.getByRole('heading', { name: /rev A/ }).waitFor();
  await writeSteps(page, wpsNumber);
  await writeWelds(page);
  await field(page, 'What changed').fill('First revision on file');
  await press(page, 'Release this revision');
  await page
    .getByText(/released .* by/)
    .first()
    .waitFor();
}

async function writeSteps(page: Page, wpsNumber: string): Promise<void> {
  await press(page, 'Add a step');
  const step = page.getByRole('group', { name: 'Step 1' });
  await fill(step, { 'What is done': 'Tack and weld' });
  await choose(step, 'Made at', 'Manual booth');
  await choose(step, 'Procedure', wpsNumber);
  await fill(step, { 'Setting up': '12', 'First piece': '6', 'Per part': '9,5', Loading: '60' });
  await press(page, 'Save the steps');
  await page.getByText('Saved: 1 steps.').waitFor();
}

/** Typed by keyboard: Enter on the last row adds the next one, which repeats it. */
async function writeWelds(page: Page): Promise<void> {
  const cell = (row: number, name: string) =>
    page.getByLabel(`Weld row ${row}, ${name}`, { exact: true });
  await press(page, 'Add a weld');
  for (const [name, value] of Object.entries({
    'a mm': '4',
    'Length mm': '250',
    Count: '3',
    't A mm': '6',
    't B mm': '6',
    'Material A': 'S355J2',
    'Material B': 'S355J2',
    'Group A': '1.2',
    'Group B': '1.2',
  }))
    await cell(1, name).fill(value);
  await cell(1, 'Length mm').press('Enter');
  await cell(2, 'Length mm').fill('125,5');
  await press(page, 'Save the weld list');
  await page.getByText('Saved: 2 rows in the weld list.').waitFor();
}

/** Keeps what is dialled and mounted at a cell, on the page of the revision. */
export async function keepSetUp(page: Page, cellCode: string): Promise<void> {
  await press(page, /1 Tack and weld/);
  const form = dialog(page);
  await choose(form, 'Cell', new RegExp(`^${cellCode}`));
  await fill(form, {
    ...{ Current: '240', Voltage: '26', 'Wire speed': '8,4', Travel: '420', 'Gas flow': '15' },
    Torch: 'Hand torch',
  });
  await choose(form, 'Wire', /G3Si1/);
  await choose(form, 'Gas', /M21/);
  await press(form, 'Keep the set-up');
  await page.getByRole('heading', { name: `Tack and weld at ${cellCode}` }).waitFor();
}

/** Wire and gas in store and hanging at the cell, as the service takes them. */
export async function loadConsumables(page: Page, cellCode: string): Promise<void> {
  const { cells } = await ask<{ cells: { id: string; code: string }[] }>(page, 'GET', '/api/cells');
  const cellId = cells.find(({ code }) => code === cellCode)?.id;
  const wire = { kind: 'wire', designation: 'G3Si1', name: 'Wire 1.2', unit: 'kg' };
  await loadAt(page, { cellId, item: { ...wire, wireDiameterMm: 1.2 }, number: 'L-1', amount: 15 });
  const gas = { kind: 'gas', designation: 'M21', name: 'Mixed gas', unit: 'l' };
  await loadAt(page, { cellId, item: gas, number: 'G-2', amount: 9_000 });
}

async function loadAt(
  page: Page,
  what: { cellId: string | undefined; item: object; number: string; amount: number },
): Promise<void> {
  const { id: itemId } = await ask<ReplyOf<typeof consumables.addItem>>(
    page,
    'POST',
    '/api/items',
    what.item,
  );
  const { id: lotId } = await ask<ReplyOf<typeof consumables.addLot>>(page, 'POST', '/api/lots', {
    ...{ itemId, number: what.number, receivedAmount: what.amount },
    receivedOn: new Date().toISOString().slice(0, 10),
  });
  await ask(page, 'POST', `/api/cells/${what.cellId}/loads`, { lotId, amount: what.amount });
}

/** An order by the keyboard alone, its part found by another name, in the one form. */
export async function takeOrderByKeyboard(
  page: Page,
  order: { alias: string; part: string; quantity: string; dueOn: string; number: string },
): Promise<void> {
  const { keyboard } = page;
  await page.goto('/orders/new');
  await button(page, 'Take the order').waitFor();
  await page.waitForFunction(() => document.activeElement?.localName === 'input');
  await keyboard.type(order.alias);
  const option = page.getByRole('option', { name: order.part });
  await option.waitFor();
  if ((await option.getAttribute('data-highlighted')) === null) await keyboard.press('ArrowDown');
  await keyboard.press('Enter');
  await page.getByText('Never made here').waitFor();
  await tabInto(page, 'Revision ordered');
  await keyboard.type('A');
  await tabInto(page, 'Quantity');
  await keyboard.type(order.quantity);
  await tabInto(page, 'Due date');
  await keyboard.type(order.dueOn);
  await tabInto(page, "Customer's order number");
  await keyboard.type(order.number);
  await page.getByText('Made for the first time', { exact: true }).waitFor();
  await keyboard.press('Enter');
  await page.getByText(/^Order \d+ of .* is taken/).waitFor();
}

/** Presses Tab until the field has the focus. */
async function tabInto(page: Page, label: string): Promise<void> {
  const target = field(page, label);
  for (let presses = 0; presses < 12; presses += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`${label} was not reached by the Tab key.`);
}
