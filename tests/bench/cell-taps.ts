import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';

/** A tap, and what stands among the buttons once it is answered; one of several where the count decides. */
interface Tap {
  readonly kind: string;
  readonly press: string;
  readonly shows: readonly string[];
  /** Pressed where it stands: a question that comes in some rounds only. */
  readonly sometimes?: true;
}

/** Times in milliseconds by kind of tap. */
export type TapTimes = ReadonlyMap<string, readonly number[]>;

const longestTapMs = 10_000;
/** From one button to the next: the pace at which a quick hand types, and gloves are slower. */
const handMs = 250;
const another = 'Yes, another one';
const beyond = 'Yes, count it';

/** The buttons that a welder presses all day; each leads to where the next one is, and the last to the first. */
export const taps: readonly Tap[] = [
  { kind: 'good part', press: 'Good +1', shows: [another, beyond, 'Saved: ', 'counted'] },
  { kind: 'another one', press: another, shows: [beyond, 'Good +1'], sometimes: true },
  { kind: 'beyond the batch', press: beyond, shows: ['Good +1'], sometimes: true },
  { kind: 'stop', press: 'Stop', shows: ['Fault'] },
  { kind: 'its reason', press: 'Fault', shows: ['Go on'] },
  { kind: 'go on', press: 'Go on', shows: ['Readings'] },
  { kind: 'readings', press: 'Readings', shows: ['Save readings'] },
  { kind: 'a pad', press: 'Current', shows: ['Delete'] },
  { kind: 'a digit', press: '7', shows: ['Delete'] },
  { kind: 'digit deleted', press: 'Delete', shows: ['Delete'] },
  { kind: 'pad, back', press: 'Back', shows: ['Save readings'] },
  { kind: 'readings, back', press: 'Back', shows: ['Good +1'] },
  { kind: 'note', press: 'Note', shows: ['Save the note'] },
  { kind: 'note, back', press: 'Back', shows: ['Good +1'] },
  { kind: 'NCR', press: 'Raise NCR', shows: ['Surface pore'] },
  { kind: 'NCR, back', press: 'Back', shows: ['Good +1'] },
  { kind: 'hand over', press: 'Hand over', shows: ['Back'] },
  { kind: 'hand over, back', press: 'Back', shows: ['Good +1'] },
  { kind: 'put down', press: 'Put down', shows: ['Before it is put away', 'Set-up minutes'] },
  { kind: 'put down, back', press: 'Back', shows: ['Good +1'] },
];

/** Every tap as often as asked, in turn. */
export async function tapTimes(page: Page, rounds: number): Promise<TapTimes> {
  const times = new Map<string, number[]>(taps.map(({ kind }) => [kind, []]));
  for (let round = 0; round < rounds; round += 1) {
    for (const tap of taps) {
      const tookMs = await tapTime(page, tap);
      if (tookMs === null) continue;
      times.get(tap.kind)?.push(tookMs);
      await pause(handMs);
    }
  }
  return times;
}

/** From the touch to the frame after the one that shows its answer; null where the button need not be there. */
async function tapTime(page: Page, { kind, press, shows, sometimes }: Tap): Promise<number | null> {
  const acts = page.locator('aside.acts');
  const says = async (what: string, cause?: unknown) =>
    new Error(`The tap "${kind}": ${what} The glass says: ${await acts.innerText()}`, { cause });
  const button = acts.getByRole('button', { name: press, exact: true }).first();
  if (sometimes === true && !(await button.isVisible())) return null;
  await button.waitFor({ timeout: longestTapMs }).catch(async (cause: unknown) => {
    throw await says(`no button "${press}" within ${longestTapMs} ms.`, cause);
  });
  await page.evaluate(listenForAnswer, { shows, longestMs: longestTapMs });
  await button.click({ timeout: longestTapMs });
  const tookMs = await page.evaluate(
    async () => (globalThis as unknown as { answered: Promise<number | null> }).answered,
  );
  if (tookMs === null)
    throw await says(`none of "${shows.join('", "')}" within ${longestTapMs} ms.`);
  return tookMs;
}

/** Runs in the page: waits for a click, then for the words, and leaves the time between them as a promise. */
function listenForAnswer({
  shows,
  longestMs,
}: {
  shows: readonly string[];
  longestMs: number;
}): void {
  const words = () => document.querySelector('aside.acts')?.textContent ?? '';
  const answered = new Promise<number | null>((resolve) => {
    setTimeout(() => resolve(null), longestMs);
    const heard = (event: Event) => {
      const before = words();
      const look = () => {
        const now = words();
        if (now === before || !shows.some((one) => now.includes(one))) requestAnimationFrame(look);
        else requestAnimationFrame(() => resolve(performance.now() - event.timeStamp));
      };
      requestAnimationFrame(look);
    };
    addEventListener('click', heard, { capture: true, once: true });
  });
  Object.assign(globalThis, { answered });
}
