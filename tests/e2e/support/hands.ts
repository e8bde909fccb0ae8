import type { Locator, Page } from 'playwright-core';

type Place = Page | Locator;

/** A field by the label that people see, whether or not it is marked as needed. */
export function field(place: Place, label: string): Locator {
  const quoted = label.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return place.getByLabel(new RegExp(`^\\s*${quoted}\\s*(\\(needed\\))?\\s*$`));
}

export async function fill(place: Place, values: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, value] of Object.entries(values)) await field(place, label).fill(value);
}

export async function choose(place: Place, label: string, option: string | RegExp): Promise<void> {
  const list = field(place, label);
  const text = await list.locator('option').filter({ hasText: option }).first().textContent();
  await list.selectOption({ label: (text ?? '').trim() });
}

export async function press(place: Place, name: string | RegExp): Promise<void> {
  await button(place, name).click();
}

export function button(place: Place, name: string | RegExp): Locator {
  return place.getByRole('button', { name, exact: typeof name === 'string' });
}

/** Presses the big keys of the pad at the cell; `,` is its decimal key. */
export async function typeOnPad(place: Place, digits: string): Promise<void> {
  for (const digit of digits) await press(place, digit);
}

/** A choice with a search field: types, waits for the line that fits, and takes it with the keyboard. */
export async function find(place: Place, label: string, typed: string, fits: string | RegExp) {
  const input = field(place, label);
  await input.click();
  await input.pressSequentially(typed);
  const page = 'page' in place ? place.page() : place;
  await page.getByRole('option', { name: fits }).first().click();
}

export function dialog(page: Page, name?: string | RegExp): Locator {
  return page.getByRole('dialog', name === undefined ? {} : { name });
}

export async function signIn(page: Page, code: string, password: string): Promise<void> {
  await page.goto('/sign-in');
  await fill(page, { 'Your code': code, Password: password });
  await press(page, 'Sign in');
  await page.getByRole('button', { name: 'Sign out' }).waitFor();
}

export async function signOut(page: Page): Promise<void> {
  await press(page, 'Sign out');
  await button(page, 'Sign out').waitFor({ state: 'detached' });
}
