import type { Page } from 'playwright-core';
import { dialog, fill, press } from '../support/hands.js';

/** A welder's certificate as it is printed: fillets from 3 mm in PA and PB. */
export async function recordCertificate(page: Page, personCode: string): Promise<void> {
  await page.goto('/people');
  await page.getByRole('link', { name: personCode }).click();
  await page.getByRole('link', { name: 'Record a certificate' }).click();
  await fill(page, {
    Number: `${personCode}-135-01`,
    Code: 'ISO 9606-1',
    Edition: '2012',
    Process: '135',
    'Filler groups': 'FM1, FM2',
    'Tested on': daysAgo(200),
    'Valid until': daysAgo(-800),
    Examiner: 'Works examiner',
  });
  for (const joint of ['fillet', 'lap', 'corner', 'PA', 'PB'])
    await page.getByLabel(joint, { exact: true }).check();
  await page.getByRole('group', { name: 'Thickness' }).getByLabel('From').fill('3');
  await press(page, 'Record a certificate');
  await page.getByRole('heading', { name: new RegExp(`${personCode}-135-01`) }).waitFor();
}

/** The coordinator signs the six-monthly confirmation with what it rests on. */
export async function confirmCertificate(page: Page, personCode: string): Promise<void> {
  await page.goto('/people');
  await page.getByRole('link', { name: personCode }).click();
  await page.getByText('No confirmation on file.').waitFor();
  await press(page, 'Sign the confirmation');
  const form = dialog(page);
  await fill(form, {
    'Confirmed for': daysAgo(5),
    Evidence: 'Nine jobs of the last months seen at the cell',
  });
  await press(form, 'Sign the confirmation');
  await page.getByText(/The latest confirmation holds until/).waitFor();
}

/** A day as people type it. */
export function daysAgo(days: number): string {
  return new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);
}
