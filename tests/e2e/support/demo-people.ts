import type { people as peopleRoutes, cells as cellRoutes, ReplyOf } from '@tackboard/contract';
import { demoPassword } from '@tackboard/seed';
import type { Browser, Page } from 'playwright-core';
import { openScreen, type Screen, type ScreenOptions } from './browser.js';

/** Asks the service as the page does, with the page's own cookies. */
export async function ask<Reply>(
  page: Page,
  method: 'GET' | 'POST' | 'DELETE',
  path: string,
  body?: unknown,
): Promise<Reply> {
  const headers = method === 'GET' ? {} : { 'idempotency-key': crypto.randomUUID() };
  const answer = await page.request.fetch(path, { method, headers, data: body });
  if (!answer.ok()) throw new Error(`${method} ${path} answered ${await answer.text()}`);
  return (await answer.json()) as Reply;
}

/** A computer at which a person of the demo shop has signed in. */
export async function openAs(
  browser: Browser,
  code: string,
  options: ScreenOptions,
): Promise<Screen> {
  const screen = await openScreen(browser, options);
  await ask(screen.page, 'POST', '/api/session', { code, password: demoPassword });
  return screen;
}

/** A registered tablet of a cell at which nobody is signed in. */
export async function openTablet(
  browser: Browser,
  cellCode: string,
  options: ScreenOptions,
): Promise<Screen> {
  const screen = await openAs(browser, 'M01', options);
  const { cells } = await ask<ReplyOf<typeof cellRoutes.list>>(screen.page, 'GET', '/api/cells');
  const cell = cells.find(({ code }) => code === cellCode);
  await ask(screen.page, 'POST', '/api/tablets', {
    name: `Tablet ${cellCode}`,
    cellId: cell?.id,
  });
  await ask(screen.page, 'DELETE', '/api/session');
  return screen;
}

/** A PIN for a welder of the demo shop, issued by the manager. */
export async function pinOf(browser: Browser, code: string, address: string): Promise<string> {
  const manager = await openAs(browser, 'M01', { address });
  const { people } = await ask<ReplyOf<typeof peopleRoutes.list>>(
    manager.page,
    'GET',
    '/api/people',
  );
  const person = people.find((one) => one.code === code);
  const path = `/api/people/${person?.id ?? code}/pin`;
  const { pin } = await ask<{ pin: string }>(manager.page, 'POST', path);
  await manager.close();
  return pin;
}
