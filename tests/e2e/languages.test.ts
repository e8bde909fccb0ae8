import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { people as peopleRoutes, ReplyOf } from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { faultsOn } from './support/axe.js';
import { startBrowser, tabletSize, type Screen } from './support/browser.js';
import { overflowingButtons } from './support/buttons.js';
import { ask, openAs, openTablet, pinOf } from './support/demo-people.js';
import { button, choose, press, typeOnPad } from './support/hands.js';
import { textsIn } from './support/texts.js';
import { startTool, type Tool } from './support/tool.js';

const languages = [
  { language: 'en', ownName: 'English', mark: '.' },
  { language: 'de', ownName: 'Deutsch', mark: ',' },
  { language: 'es', ownName: 'Español', mark: ',' },
  { language: 'pl', ownName: 'Polski', mark: ',' },
] as const;
const pictures = fileURLToPath(new URL('./pictures', import.meta.url));
const operator = 'O03';
const longestMs = 240_000;

let tool: Tool;
let browser: Browser;
let screen: Screen;
let page: Page;
let pin = '';

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
    mkdir(pictures, { recursive: true }),
  ]);
  pin = await pinOf(browser, operator, tool.address);
  screen = await openTablet(browser, 'R1', { address: tool.address, size: tabletSize });
  page = screen.page;
});

/** Whatever became of the test before, nobody is signed in. */
beforeEach(async () => {
  await ask(page, 'DELETE', '/api/session');
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

describe('the tablet at the cell speaks the language of who works there', () => {
  it.each(languages)(
    '$ownName: light and dark, no text beyond its button',
    async ({ language, ownName, mark }) => {
      await setLanguageOf(operator, ownName);
      const say = textsIn(language);
      const found: string[] = [];
      const look = async (state: string) => {
        const told = await examine(language, state);
        found.push(...told.map((fault) => `${state}: ${fault}`));
      };

      await page.goto('/');
      await page.locator('header select').selectOption({ label: ownName });
      await page.getByRole('heading', { name: say('cell_next') }).waitFor();
      await look('nobody signed in');
      await page.getByRole('link', { name: say('cell_sign_in_to_pull') }).click();
      await page.getByRole('heading', { name: say('session_who') }).waitFor();
      await button(page, new RegExp(operator)).waitFor();
      await look('who are you');
      await press(page, new RegExp(operator));
      await look('the pad for the PIN');
      await typeOnPad(page, pin);
      await button(page, say('cell_pull')).waitFor();
      expect(await page.locator('.worked').innerText()).toMatch(new RegExp(`\\d\\${mark}\\d`));
      await look('what is next');
      await press(page, say('cell_pull'));
      await button(page, say('cell_good_one')).waitFor();
      await look('in work');
      await press(page, say('cell_reading'));
      await look('readings');
      await press(page, say('cell_interpass'));
      await look('the pad for a reading');
      await press(page, say('cell_back'));
      await press(page, say('cell_back'));
      await press(page, say('cell_note'));
      await look('a note');
      await press(page, say('cell_back'));
      await press(page, say('cell_stop'));
      await look('stop reasons');
      await press(page, say('cell_cause_waitingParts'));
      await button(page, say('cell_go_on')).waitFor();
      await look('standing still');
      await press(page, say('cell_go_on'));
      await press(page, say('cell_hand_over'));
      await button(page, /O08/).waitFor();
      await look('handing over');
      await press(page, say('cell_back'));
      await press(page, say('cell_put_down'));
      await look('putting down');
      // The first of the form; the one of the program stands below it.
      await page.locator('.acts .main').first().click();
      await button(page, say('cell_pull')).waitFor();
      await press(page, say('session_sign_out'));
      await page.locator('header select').waitFor();
      expect(found).toEqual([]);
    },
    longestMs,
  );

  it('keeps the language last chosen on it while nobody is signed in', async () => {
    await setLanguageOf(operator, 'Polski');
    await page.goto('/');
    await page.locator('header select').selectOption({ label: 'Deutsch' });
    await signInAtCell('de');
    await button(page, textsIn('pl')('cell_pull')).waitFor();
    await expectLanguage('pl');
    await press(page, textsIn('pl')('session_sign_out'));
    await page.getByRole('heading', { name: textsIn('de')('cell_next') }).waitFor();
    await page.reload();
    await page.getByRole('heading', { name: textsIn('de')('cell_next') }).waitFor();
    await expectLanguage('de');
  });

  it('leaves the screens of the office in English', async () => {
    await setLanguageOf(operator, 'Polski');
    await page.goto('/');
    await page.locator('header select').selectOption({ label: 'Deutsch' });
    await signInAtCell('de');
    await button(page, textsIn('pl')('cell_pull')).waitFor();
    await page.getByRole('link', { name: textsIn('pl')('nav_board') }).click();
    await page.getByRole('heading', { name: 'Board' }).waitFor();
    await expectLanguage('en');
    await press(page, 'Sign out');
    await page.locator('header select').waitFor();
  });

  it('says what kind of refusal it is above the server’s own sentence', async () => {
    await page.goto('/');
    await page.locator('header select').selectOption({ label: 'Deutsch' });
    await page.getByRole('link', { name: textsIn('de')('cell_sign_in_to_pull') }).click();
    await press(page, new RegExp(operator));
    await typeOnPad(page, pin === '000000' ? '000001' : '000000');
    const refusal = page.getByRole('alert');
    await refusal.waitFor();
    expect(await refusal.innerText()).toContain(textsIn('de')('refusal_wrong_credentials'));
  });

  it('would notice a text that does not fit', async () => {
    await page.goto('/sign-in');
    await button(page, new RegExp(operator)).waitFor();
    const [first] = await page.locator('main button').all();
    await first?.evaluate((element) => {
      element.style.width = '10px';
      element.style.minWidth = '0';
      element.textContent = 'Zwischenlagentemperatur';
    });
    expect(await overflowingButtons(page)).toHaveLength(1);
  });
});

async function signInAtCell(shown: string): Promise<void> {
  const say = textsIn(shown);
  await page.getByRole('link', { name: say('cell_sign_in_to_pull') }).click();
  await press(page, new RegExp(operator));
  await typeOnPad(page, pin);
}

async function expectLanguage(language: string): Promise<void> {
  await page.waitForFunction((wanted) => document.documentElement.lang === wanted, language);
}

/** The manager chooses it on the person's page. */
async function setLanguageOf(code: string, ownName: string): Promise<void> {
  const office = await openAs(browser, 'M01', { address: tool.address });
  type People = ReplyOf<typeof peopleRoutes.list>;
  const { people } = await ask<People>(office.page, 'GET', '/api/people');
  const person = people.find((one) => one.code === code);
  await office.page.goto(`/people/${person?.id ?? code}`);
  await choose(office.page, 'Language at the cells', ownName);
  await press(office.page, 'Save');
  await office.page
    .getByRole('status')
    .filter({ hasText: person?.name ?? code })
    .waitFor();
  await office.close();
}

/** The page in its language: every text in its button, and no serious fault, light and dark. Keeps a picture. */
async function examine(language: string, state: string): Promise<readonly string[]> {
  await expectLanguage(language);
  const found: string[] = [...(await overflowingButtons(page))];
  const file = `${pictures}/at-cell-${state.replaceAll(' ', '-')}-${language}.png`;
  await page.screenshot({ path: file, fullPage: true });
  for (const theme of ['light', 'dark']) {
    await page.evaluate((wanted) => {
      if (wanted === 'dark') document.documentElement.dataset['theme'] = 'dark';
      else delete document.documentElement.dataset['theme'];
    }, theme);
    found.push(...(await faultsOn(page)).map((fault) => `${theme}: ${fault}`));
  }
  const { wide, room } = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth,
    room: document.documentElement.clientWidth,
  }));
  if (wide > room) found.push(`the page is ${wide} px wide on ${room} px`);
  return [...found, ...screen.complaints()];
}
