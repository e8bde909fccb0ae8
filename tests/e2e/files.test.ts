import { maxFileBytes, type StoredFile } from '@tackboard/contract';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { pdf, png } from '../support/pictures.js';
import { faultsOn } from './support/axe.js';
import { startBrowser } from './support/browser.js';
import { ask, openAs } from './support/demo-people.js';
import { button } from './support/hands.js';
import { startTool, type Tool } from './support/tool.js';

let tool: Tool;
let browser: Browser;
let page: Page;
let wpqrId: string;
let folder: string;

beforeAll(async () => {
  [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  folder = await mkdtemp(join(tmpdir(), 'tackboard-chosen-'));
  ({ page } = await openAs(browser, 'Q02', { address: tool.address }));
  const { wpqrs } = await ask<{ wpqrs: { id: string }[] }>(page, 'GET', '/api/wpqrs');
  wpqrId = wpqrs[0]?.id ?? '';
});
afterAll(async () => {
  await browser?.close();
  await tool?.stop();
  await rm(folder, { recursive: true, force: true });
});

const input = () => page.getByLabel('Choose a file');
const choose = async (name: string, content: Buffer) => {
  await writeFile(join(folder, name), content);
  await input().setInputFiles(join(folder, name));
  await button(page, 'Add it').click();
};
const onFile = async (type: string, id: string) =>
  (
    await ask<{ files: StoredFile[] }>(
      page,
      'GET',
      `/api/files?subjectType=${type}&subjectId=${id}`,
    )
  ).files;

describe('the scanned paper of a qualification record', () => {
  it('that is not what its name says is refused in words, and stays chosen', async () => {
    await page.goto(`/procedures/records/${wpqrId}`);
    await choose('WPQR-7.pdf', png(20, 20));
    await page.getByText('"WPQR-7.pdf" says .pdf but is a PNG.').first().waitFor();
    expect(await input().inputValue()).toContain('WPQR-7.pdf');
    expect(await onFile('wpqr', wpqrId)).toEqual([]);
  });

  it('that is too large is refused with its size before it is sent', async () => {
    await choose('big.pdf', pdf(maxFileBytes + 1));
    await page.getByText('"big.pdf" is 20.1 MB large.').first().waitFor();
    expect(await input().inputValue()).toContain('big.pdf');
    expect(await onFile('wpqr', wpqrId)).toEqual([]);
  });

  it('is added, listed and opened; the page has no fault of access', async () => {
    await choose('WPQR-7.pdf', pdf());
    const link = page.getByRole('link', { name: 'WPQR-7.pdf' });
    await link.waitFor();
    expect(await onFile('wpqr', wpqrId)).toMatchObject([{ name: 'WPQR-7.pdf' }]);
    expect(await faultsOn(page)).toEqual([]);
    const answer = await page.request.get((await link.getAttribute('href')) ?? '');
    expect(answer.headers()['content-type']).toBe('application/pdf');
  });
});

describe('a photo', () => {
  it('is drawn smaller in the browser, as a JPEG, whatever its size was', async () => {
    const { fixtures } = await ask<{ fixtures: { id: string; code: string }[] }>(
      page,
      'GET',
      '/api/fixtures',
    );
    const fixture = fixtures.at(-1) as { id: string; code: string };
    await page.goto('/fixtures');
    await page
      .getByRole('row', { name: new RegExp(fixture.code) })
      .getByRole('button')
      .click();
    const photo = page.getByLabel('Choose a photo');
    await photo.setInputFiles({ name: 'rack.png', mimeType: 'image/png', buffer: png(5000, 3000) });
    await button(page, 'Add it').click();
    await page.getByRole('link', { name: 'rack.jpg' }).waitFor();
    expect(await onFile('fixture', fixture.id)).toMatchObject([
      { media: 'image/jpeg', name: 'rack.jpg', widthPx: 2048, heightPx: 1229 },
    ]);
  });
});
