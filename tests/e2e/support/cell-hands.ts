import type { Page } from 'playwright-core';

/** For a page that opens while others keep the machine busy. */
const longestWaitMs = 60_000;

/** What a welder does at the cell, each with what has to be pressed for it. */
export type CellAct =
  | { readonly do: 'good' | 'rework' | 'scrap' | 'stop' | 'goOn' }
  | { readonly do: 'reload' }
  | { readonly do: 'reading'; readonly currentA: number }
  | { readonly do: 'note'; readonly text: string };

/** A slip of paper beside the tablet: what was pressed, counted by hand. */
export interface Slip {
  good: number;
  rework: number;
  scrap: number;
  stops: number;
  standing: boolean;
  readonly readings: number[];
  readonly notes: string[];
}

export const emptySlip = (): Slip => ({
  ...{ good: 0, rework: 0, scrap: 0, stops: 0, standing: false },
  ...{ readings: [], notes: [] },
});

/** Writes an act on the slip. */
export function write(slip: Slip, act: CellAct): void {
  switch (act.do) {
    case 'good':
    case 'rework':
    case 'scrap':
      slip[act.do] += 1;
      return;
    case 'stop':
      slip.stops += 1;
      slip.standing = true;
      return;
    case 'goOn':
      slip.standing = false;
      return;
    case 'reading':
      slip.readings.push(act.currentA);
      return;
    case 'note':
      slip.notes.push(act.text);
      return;
    case 'reload':
  }
}

/** Whether the buttons for an act are on the glass: most are put away while work stands still. */
export function offered(slip: Slip, { do: what }: CellAct): boolean {
  if (what === 'reload') return true;
  if (what === 'goOn') return slip.standing;
  return !slip.standing || ['good', 'scrap', 'note'].includes(what);
}

/** Does an act by the page's own buttons, and waits until the glass shows what the slip says after it. */
export async function actAt(page: Page, act: CellAct, after: Slip): Promise<void> {
  if (act.do === 'reload') {
    await page.reload();
    const first = page.getByRole('button', { name: after.standing ? 'Go on' : 'Good +1' });
    await first.waitFor({ timeout: longestWaitMs }).catch(async (cause: unknown) => {
      throw new Error(`It did not open: ${await page.locator('body').innerText()}`, { cause });
    });
  } else {
    await tapAll(page, tapsOf(act));
  }
  await glassShows(page, after);
}

function tapsOf(act: Exclude<CellAct, { do: 'reload' }>): readonly string[] {
  if (act.do === 'reading')
    return ['Readings', 'Current', ...String(act.currentA), 'Back', 'Save readings'];
  if (act.do === 'note') return ['Note', `=${act.text}`, 'Save the note'];
  return plainTaps[act.do];
}

const plainTaps = {
  good: ['Good +1'],
  rework: ['Rework +1'],
  scrap: ['Scrap +1'],
  stop: ['Stop', 'Fault'],
  goOn: ['Go on'],
} as const;

/**
 * Presses buttons by their text, one after the other, in the page itself: a thousand acts take a minute in this way.
 * `=text` types into the field. What the page asks about a repeat is answered with yes.
 */
async function tapAll(page: Page, taps: readonly string[]): Promise<void> {
  await page.evaluate(async (wanted) => {
    const soon = async () => new Promise((resolve) => setTimeout(resolve, 4));
    const find = (text: string) =>
      [...document.querySelectorAll<HTMLButtonElement>('aside.acts button')].find(
        (button) => button.innerText.trim() === text && !button.disabled,
      );
    async function until<T>(what: string, look: () => T | null | undefined): Promise<T> {
      for (const endMs = performance.now() + 30_000; performance.now() < endMs; await soon()) {
        const found = look();
        if (found !== null && found !== undefined) return found;
      }
      throw new Error(`${what} did not come. The page says: ${document.body.innerText}`);
    }
    for (const tap of wanted) {
      if (tap.startsWith('=')) {
        const field = await until('A field', () => document.querySelector('aside.acts textarea'));
        (field as HTMLTextAreaElement).value = tap.slice(1);
        field.dispatchEvent(new Event('input', { bubbles: true }));
      } else (await until(tap, () => find(tap))).click();
      await soon();
    }
  }, taps);
}

/** Waits until the counts on the glass are those of the slip; questions about a repeat are answered on the way. */
async function glassShows(page: Page, slip: Slip): Promise<void> {
  const wanted = slip.standing
    ? `; ${slip.good} are good.`
    : `: ${slip.good} good, ${slip.rework} to rework, ${slip.scrap} scrap in this run`;
  await page.evaluate(async (words) => {
    const acts = () => document.querySelector<HTMLElement>('aside.acts')?.innerText ?? '';
    const yes = () =>
      [...document.querySelectorAll<HTMLButtonElement>('aside.acts button')].find((button) =>
        ['Yes, another one', 'Yes, count it'].includes(button.innerText.trim()),
      );
    for (const endMs = performance.now() + 30_000; performance.now() < endMs;) {
      const question = yes();
      if (question !== undefined) question.click();
      else if (acts().includes(words)) return;
      await new Promise((resolve) => setTimeout(resolve, 4));
    }
    throw new Error(`The slip says "${words}", the glass says "${acts()}".`);
  }, wanted);
}
