import type { Page } from 'playwright-core';

/** First contentful paint of as many reloads as asked, in milliseconds from the start of each, by Paint Timing. */
export async function paintTimes(page: Page, rounds: number): Promise<readonly number[]> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    await page.reload();
    await page.getByRole('button', { name: 'Good +1', exact: true }).waitFor();
    const { controlled, paintMs } = await page.evaluate(() => ({
      controlled: navigator.serviceWorker.controller !== null,
      paintMs: performance.getEntriesByName('first-contentful-paint')[0]?.startTime,
    }));
    if (!controlled) throw new Error('The page was not opened by the service worker.');
    if (paintMs === undefined) throw new Error('The browser tells no first paint.');
    times.push(paintMs);
  }
  return times;
}
