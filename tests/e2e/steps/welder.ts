import type { Page } from 'playwright-core';
import { button, press, typeOnPad } from '../support/hands.js';

export async function signInByPin(page: Page, name: string | RegExp, pin: string): Promise<void> {
  await page
    .getByRole('link', { name: /^Sign in/ })
    .first()
    .click();
  await press(page, name);
  await typeOnPad(page, pin);
  await button(page, 'Sign out').waitFor();
}

/** Says that all stands at the cell as the card shows it, after a pull. */
export async function startAsShown(page: Page): Promise<void> {
  await press(page, 'As shown, start');
  await button(page, 'Good +1').waitFor();
}

/** Counts one part; a second one within 20 s is asked about first. */
export async function countOne(page: Page, kind: 'Good +1' | 'Scrap +1' | 'Rework +1') {
  await press(page, kind);
  const again = button(page, 'Yes, another one');
  const counted = page.getByText(/^Saved: /);
  await again.or(counted).first().waitFor();
  if (await again.isVisible()) await again.click();
}

/** Types readings on the big pad and sends them; answers what the tool says to them. */
export async function enterReadings(
  page: Page,
  readings: Readonly<Record<string, string>>,
): Promise<void> {
  await press(page, 'Readings');
  for (const [name, value] of Object.entries(readings)) {
    await press(page, name);
    await typeOnPad(page, value);
    await press(page, 'Back');
  }
  await press(page, 'Save readings');
}

/** Measures each weld by its leg and signs; what is typed is well over any drawn size. */
export async function passFirstPiece(page: Page, welds: readonly number[]): Promise<void> {
  await press(page, 'Check the first piece');
  await page.getByRole('heading', { name: /^First piece: / }).waitFor();
  for (const weld of welds) {
    await press(page, new RegExp(`^Weld ${weld}, z `));
    await typeOnPad(page, '12');
    await press(page, 'Back');
  }
  await press(page, 'Accepted: sign');
  await page.getByText('First piece passed. The rest can be made.').waitFor();
}
