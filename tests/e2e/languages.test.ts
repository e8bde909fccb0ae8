import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type {
  FirstPieceTask,
  people as peopleRoutes,
  ReplyOf,
  Run,
  SessionView,
  SetUpCard,
} from '@tackboard/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { sizesAsDrawn } from '../support/make-batch.js';
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
      await press(page, say('cell_sign_in_to_pull'));
      await page.getByRole('heading', { name: say('session_who') }).waitFor();
      await button(page, new RegExp(operator)).waitFor();
      await look('who pulls');
      await press(page, new RegExp(operator));
      await look('the pad for the PIN of the one who pulls');
      await press(page, say('cell_back'));
      await page.getByRole('link', { name: say('session_sign_in') }).click();
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
      await button(page, say('start_as_shown')).waitFor();
      await look('the start');
      await press(page, say('start_something'));
      await look('what is not as shown');
      await press(page, say('start_safety'));
      await look('what is there instead');
      await page.locator('aside.acts textarea').fill('–––');
      await press(page, say('start_keep'));
      await look('the start that is told to the office');
      await press(page, say('start_something'));
      await press(page, say('start_safety'));
      await press(page, say('start_is_shown'));
      await press(page, say('start_as_shown'));
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
    screen.complaints();
    await page.goto('/');
    await page.locator('header select').selectOption({ label: 'Deutsch' });
    await press(page, textsIn('de')('cell_sign_in_to_pull'));
    await press(page, new RegExp(operator));
    await typeOnPad(page, pin === '000000' ? '000001' : '000000');
    const refusal = page.getByRole('alert');
    await refusal.waitFor();
    expect(await refusal.innerText()).toContain(textsIn('de')('refusal_wrong_credentials'));
    expect(screen.complaints()).toEqual([expect.stringContaining('401')]);
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

  describe('and in all its forms', () => {
    let run: Run;
    beforeAll(async () => {
      await ask(page, 'POST', '/api/session/pin', { code: operator, pin });
      const { tablet } = await ask<SessionView>(page, 'GET', '/api/session');
      const path = `/api/cells/${tablet?.cellId ?? ''}/pull`;
      ({ run } = await ask<{ run: Run }>(page, 'POST', path, {}));
      const step = `/api/job-steps/${run.jobStepId}`;
      const { setUp } = await ask<SetUpCard>(page, 'GET', `${step}/card`);
      const program = { revision: setUp?.programRevision };
      await ask(page, 'POST', `/api/runs/${run.id}/as-shown`, { program });
    });

    /** The person signs in at the cell, where the job is in work. */
    async function atWork({ language, ownName }: (typeof languages)[number]) {
      await setLanguageOf(operator, ownName);
      const say = textsIn(language);
      await page.goto('/');
      await page.locator('header select').selectOption({ label: ownName });
      await signInAtCell(language);
      await button(page, say('cell_good_one')).waitFor();
      const found: string[] = [];
      const look = async (state: string) => {
        const told = await examine(language, state);
        found.push(...told.map((fault) => `${state}: ${fault}`));
      };
      return { say, found, look };
    }

    it.each(languages)(
      '$ownName: first piece, NCR, scan, settings, loading',
      async (spoken) => {
        const { say, found, look } = await atWork(spoken);
        const acts = page.locator('aside.acts');
        await press(page, say('piece_check'));
        await button(acts, say('piece_accept')).waitFor();
        await look('the first piece');
        await acts.locator('.pairs button').first().click();
        await acts.locator('.pad').waitFor();
        await look('the pad for a size');
        await press(acts, say('cell_back'));
        await press(acts, say('cell_back'));
        await press(page, say('ncr_raise'));
        await look('what an NCR is about');
        await press(page, say('defect_surfacePore'));
        await look('how many parts an NCR is about');
        await press(acts, say('cell_back'));
        await press(acts, say('cell_back'));
        await page.getByLabel(say('cell_scan')).fill('4006381333931');
        await press(page, say('cell_scan_open'));
        await page.getByText('4006381333931').waitFor();
        await look('a foreign code');
        const gear = page.locator('.gear');
        const program = gear.getByLabel(say('gear_program_note'));
        await program
          .or(button(gear, say('gear_change')))
          .first()
          .waitFor();
        if (await program.isVisible()) {
          await look('which program is loaded');
          await gear.locator('.acts .main').first().click();
        }
        await press(gear, say('gear_change'));
        await look('which setting was changed');
        await press(gear, say('cell_voltage'));
        await typeOnPad(gear, '27');
        await look('the pad for a setting');
        await press(gear, say('gear_next'));
        await look('why a setting was changed');
        for (let back = 0; back < 3; back += 1) await press(gear, say('cell_back'));
        await press(gear, say('gear_load'));
        await gear.getByRole('heading', { name: say('gear_which_lot') }).waitFor();
        await look('loading a lot');
        await press(gear, say('cell_back'));
        expect(found).toEqual([]);
      },
      longestMs,
    );

    it.each(languages)(
      '$ownName: what is kept when a batch is closed',
      async (spoken) => {
        const { say, found, look } = await atWork(spoken);
        await complete(run);
        await page.reload();
        await press(page, say('cell_put_down'));
        await button(page, say('gear_close_save')).waitFor();
        await look('closing out');
        await press(page, say('cell_back'));
        expect(found).toEqual([]);
      },
      longestMs,
    );
  });
});

async function signInAtCell(shown: string): Promise<void> {
  const say = textsIn(shown);
  await page.getByRole('link', { name: say('session_sign_in') }).click();
  await press(page, new RegExp(operator));
  await typeOnPad(page, pin);
}

/** All parts of a run are good, the first one checked. */
async function complete({ id }: Pick<Run, 'id'>): Promise<void> {
  const at = `/api/runs/${id}`;
  const { quantity, stepGoodCount } = await ask<Run>(page, 'GET', at);
  if (stepGoodCount >= quantity) return;
  const task = await ask<FirstPieceTask>(page, 'GET', `${at}/first-piece`);
  await ask(page, 'POST', `${at}/first-piece`, { sizes: sizesAsDrawn(task), visual: 'accepted' });
  await ask(page, 'POST', `${at}/counts`, { good: quantity - stepGoodCount });
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
