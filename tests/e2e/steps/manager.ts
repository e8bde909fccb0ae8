import type { Page } from 'playwright-core';
import { choose, dialog, field, fill, press } from '../support/hands.js';

export const password = 'one good weld at a time';

export interface NewPerson {
  readonly code: string;
  readonly name: string;
  readonly role: string;
  readonly coordinator?: boolean;
}

/** Adds a person in the dialog; who works in the office gets a password as well. */
export async function addPerson(page: Page, person: NewPerson): Promise<void> {
  await page.goto('/people');
  await press(page, 'Add a person');
  const form = dialog(page, 'Add a person');
  await fill(form, { Code: person.code, Name: person.name });
  await choose(form, 'Role', person.role);
  if (person.coordinator === true) await form.getByLabel('Welding coordinator').check();
  await press(form, 'Add a person');
  await page.getByRole('heading', { name: `${person.name} · ${person.code}` }).waitFor();
  if (person.role === 'Welder or operator') return;
  await fill(page, { 'New password': password });
  await press(page, 'Set the password');
  await page.getByText('The new password holds from now on.').waitFor();
}

export async function addBooth(page: Page, code: string, name: string): Promise<void> {
  await page.goto('/cells/new');
  await fill(page, { Code: code, Name: name, Processes: '135' });
  await choose(page, 'Kind', 'Manual booth');
  await choose(page, 'Mechanisation', 'Partly mechanised');
  await fill(page, {
    'Power source, rated': '400',
    'Power source, duty at that current': '60',
    'Torch, rated': '300',
    'Torch, duty at that current': '60',
    'Torch, never above': '350',
    'Torch rated with gas': 'M21',
    'Fume extraction': 'Arm at the joint',
  });
  await press(page, 'Add a cell');
  await page.getByRole('heading', { name: `${code} · ${name}` }).waitFor();
}

/** A shift on each day of the week, so that hours are planned on whatever day this runs. */
export async function planEveryDay(page: Page): Promise<void> {
  await press(page, 'Add a shift');
  await fill(page, { From: '00:00', To: '23:59', Break: '0' });
  for (let day = 1; day < 7; day += 1) await press(page, 'Add a shift');
  await fill(page, { 'Reason for the change': 'First calendar of this cell' });
  await press(page, 'Save the calendar');
  await page.getByText('The calendar is saved: 167 h 53 min in an ordinary week.').waitFor();
}

export async function registerTablet(page: Page, cellCode: string, name: string): Promise<void> {
  await page.goto('/tablets');
  await field(page, 'Name of the tablet').fill(name);
  await choose(page, 'Cell', new RegExp(`^${cellCode}`));
  await press(page, 'Make this device the tablet of a cell');
  await page.getByText(`This device is ${name}, the tablet of ${cellCode}.`).waitFor();
}

/** The PIN as the dialog shows it, once. */
export async function issuePin(page: Page, code: string): Promise<string> {
  await page.goto('/people');
  await page.getByRole('link', { name: code }).click();
  await press(page, 'Issue a new PIN');
  const pin = await dialog(page)
    .getByText(/^\d{6}$/)
    .textContent();
  await press(dialog(page), 'Close');
  return pin ?? '';
}
