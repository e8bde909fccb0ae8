import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { enhancedContrast, faultsOn } from './support/axe.js';
import { signInByPin } from './steps/welder.js';
import { press } from './support/hands.js';
import { startRobotCell } from './support/robot-cell.js';
import type { Tool } from './support/tool.js';

/**
 * A 10-inch tablet with 1280 x 800 points has 6.3 points to the millimetre at the fine end. A key of 20 mm is hit
 * best by someone who stands (Colle and Hiszem 2004); push buttons for a gloved hand stand apart by 13 mm between
 * their edges where a slip matters (MIL-STD-1472E, table VII), and by 8 mm elsewhere as common practice.
 */
const pointsPerMm = 6.3;
const mainMm = 20;
const leastMm = 15;
const gapMm = 8;
const slipGapMm = 13;
/** Drawn sizes are rounded to fractions of a point. */
const roundingPx = 0.6;

let tool: Tool;
let browser: Browser;
let page: Page;
let pin = '';

beforeAll(async () => {
  ({ tool, browser, page, pin } = await startRobotCell());
});

afterAll(async () => {
  await browser?.close();
  await tool?.stop();
});

/** The states of the tablet in the order in which a welder comes to them. */
const states: readonly { readonly name: string; readonly reach: () => Promise<void> }[] = [
  {
    name: 'nobody signed in',
    async reach() {
      await page.goto('/');
      await page.getByRole('button', { name: 'Sign in to pull' }).waitFor();
    },
  },
  {
    name: 'who are you',
    async reach() {
      await press(page, 'Sign in to pull');
      await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
      await page.getByRole('button', { name: /O03/ }).waitFor();
    },
  },
  {
    name: 'the pad for the PIN',
    async reach() {
      await press(page, /O03/);
      await page.getByRole('button', { name: '7', exact: true }).waitFor();
    },
  },
  {
    name: 'what is next',
    async reach() {
      await press(page, 'Back');
      await signInByPin(page, /O03/, pin);
      await page.getByRole('button', { name: 'Pull' }).waitFor();
    },
  },
  {
    name: 'the start',
    async reach() {
      await press(page, 'Pull');
      await page.getByRole('button', { name: 'As shown, start' }).waitFor();
    },
  },
  {
    name: 'what is not as shown',
    reach: async () => press(page, 'Something is not as shown'),
  },
  {
    name: 'what is there instead',
    reach: async () => press(page, 'Extraction and guards'),
  },
  {
    name: 'in work',
    async reach() {
      await press(page, 'It is as shown');
      await press(page, 'As shown, start');
      await page.getByRole('button', { name: 'Good +1' }).waitFor();
    },
  },
  {
    name: 'the first piece',
    async reach() {
      await press(page, 'Check the first piece');
      await page.getByRole('heading', { name: /^First piece: / }).waitFor();
    },
  },
  {
    name: 'the pad for a size',
    reach: async () =>
      page
        .getByRole('button', { name: /^Weld 1, / })
        .first()
        .click(),
  },
  {
    name: 'what an NCR is about',
    async reach() {
      await press(page, 'Back');
      await press(page, 'Back');
      await press(page, 'Raise NCR');
    },
  },
  { name: 'how many parts an NCR is about', reach: async () => press(page, 'Surface pore') },
  {
    name: 'readings',
    async reach() {
      await press(page, 'Back');
      await press(page, 'Back');
      await press(page, 'Readings');
    },
  },
  { name: 'the pad for a reading', reach: async () => press(page, 'Current') },
  {
    name: 'stop reasons',
    async reach() {
      await press(page, 'Back');
      await press(page, 'Back');
      await press(page, 'Stop');
    },
  },
  {
    name: 'standing still',
    async reach() {
      await press(page, 'Waiting for parts');
      await page.getByRole('button', { name: 'Go on' }).waitFor();
    },
  },
  {
    name: 'handing over',
    async reach() {
      await press(page, 'Go on');
      await press(page, 'Hand over');
      await page.getByRole('button', { name: /O08/ }).waitFor();
    },
  },
  {
    name: 'putting down',
    async reach() {
      await press(page, 'Back');
      await press(page, 'Put down');
      await page.getByRole('heading', { name: 'Put down this job' }).waitFor();
    },
  },
];

describe('the tablet at the cell is made for a gloved hand at arm’s length', () => {
  it.each(states)('$name: big targets, apart, and text at 7:1', async ({ reach }) => {
    await reach();
    const targets = await targetsOn(page);
    expect(targets.length).toBeGreaterThan(0);
    expect(tooSmall(targets)).toEqual([]);
    expect(tooClose(targets)).toEqual([]);
    expect(await faultsOn(page, enhancedContrast)).toEqual([]);
  });
});

interface Target {
  readonly name: string;
  /** A key of a number pad: 20 mm keys may stand 1 to 3 mm apart (Colle and Hiszem 2004). */
  readonly key: boolean;
  /** A slip on it costs more than a tap. */
  readonly stop: boolean;
  /** A second way that is not part of the work, such as unfolding the details. */
  readonly side: boolean;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

async function targetsOn(of: Page): Promise<readonly Target[]> {
  return of.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main button, main a, main summary')]
      .filter((element) => element.checkVisibility())
      .map((element) => {
        const { left, top, right, bottom } = element.getBoundingClientRect();
        return {
          name: element.innerText,
          key: element.closest('.keys') !== null,
          stop: element.classList.contains('stop'),
          side: element.localName === 'summary' || element.classList.contains('quiet'),
          ...{ left, top, right, bottom },
        };
      }),
  );
}

function tooSmall(targets: readonly Target[]): readonly string[] {
  return targets.flatMap(({ name, side, top, bottom, left, right }) => {
    const leastPx = (side ? leastMm : mainMm) * pointsPerMm - roundingPx;
    const [widthPx, heightPx] = [right - left, bottom - top];
    return Math.min(widthPx, heightPx) < leastPx
      ? [`${name}: ${widthPx.toFixed(0)} x ${heightPx.toFixed(0)} px, at least ${leastPx} px`]
      : [];
  });
}

function tooClose(targets: readonly Target[]): readonly string[] {
  return targets.flatMap((one, at) =>
    targets.slice(at + 1).flatMap((other) => {
      if (one.key && other.key) return [];
      const across = Math.max(other.left - one.right, one.left - other.right);
      const down = Math.max(other.top - one.bottom, one.top - other.bottom);
      const apartPx = Math.max(across, down);
      const wantedMm = one.stop || other.stop ? slipGapMm : gapMm;
      return apartPx < wantedMm * pointsPerMm - roundingPx
        ? [`${one.name} and ${other.name}: ${apartPx.toFixed(0)} px apart`]
        : [];
    }),
  );
}
