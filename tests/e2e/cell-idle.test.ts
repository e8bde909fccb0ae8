import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signInByPin, startAsShown } from './steps/welder.js';
import { button, field, press, typeOnPad } from './support/hands.js';
import { startRobotCell } from './support/robot-cell.js';
import type { Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let page: Page;
let pin = '';

beforeAll(async () => {
  ({ tool, browser, page, pin } = await startRobotCell());
  await page.clock.install();
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

describe('ten minutes without a touch at the cell', () => {
  it('sign the person out; the job stays open and can be read', async () => {
    await page.goto('/');
    await signInByPin(page, /O03/, pin);
    await press(page, 'Pull');
    await startAsShown(page);
    await press(page, 'Good +1');
    await page.getByText(/^Saved: 1 good/).waitFor();
    await press(page, 'Readings');
    await press(page, 'Current');
    await typeOnPad(page, '25');
    await press(page, 'Back');
    await press(page, 'Back');
    await press(page, 'Note');
    await field(page, 'Note').fill('Second tack is');
    await page.clock.fastForward('09:00');
    await field(page, 'Note').press('End');
    await page.clock.fastForward('09:00');
    expect(await button(page, 'Sign out').count()).toBe(1);
    await page.clock.fastForward('01:05');
    await button(page, 'Sign in to go on').waitFor();
    expect(await button(page, 'Sign out').count()).toBe(0);
    await page.getByText(/O03 .* since/).waitFor();
    await page.getByRole('heading', { name: 'Waiting here' }).waitFor();
    expect(await button(page, 'Good +1').count()).toBe(0);
  });

  it('what was half typed is there for the same job, also after the page was loaded anew', async () => {
    await page.reload();
    await signInByPin(page, /O03/, pin);
    await expect.poll(async () => field(page, 'Note').inputValue()).toBe('Second tack is');
    await field(page, 'Note').fill('Second tack is longer');
    await press(page, 'Save the note');
    await page
      .getByText(/Second tack is longer/)
      .first()
      .waitFor();
    await press(page, 'Readings');
    await button(page, /^Current 25 A/).waitFor();
    await press(page, 'Back');
    await press(page, 'Note');
    expect(await field(page, 'Note').inputValue()).toBe('');
  });
});
