import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { findChromium } from './preparation/chromium.mjs';
import { prepareBuild } from './preparation/prepare.mjs';
import { Stop, main, root, say } from './preparation/run.mjs';

const pictures = join(root, 'docs/pictures');
const cellCode = 'R1';
const longestStartMs = 180_000;

async function freePort() {
  const server = createServer();
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}

async function waitFor(address) {
  const until = Date.now() + longestStartMs;
  while (Date.now() < until) {
    const answer = await fetch(`${address}/api/health`).catch(() => undefined);
    if (answer?.ok) return;
    await pause(500);
  }
  throw new Stop(`The tool did not answer at ${address} within ${longestStartMs / 1000} s.`);
}

/** Serves a demo shop of its own while the body runs. */
async function withTool(body) {
  const data = mkdtempSync(join(tmpdir(), 'tackboard-pictures-'));
  const port = await freePort();
  const server = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: root,
    env: { ...process.env, PORT: String(port), TACKBOARD_DATA: data },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  try {
    const address = `http://127.0.0.1:${port}`;
    await waitFor(address);
    await body(address);
  } finally {
    server.kill('SIGTERM');
    await ended;
    rmSync(data, { recursive: true, force: true });
  }
}

/** A call as the signed-in page makes it, with the page's cookies. */
async function ask(page, method, path, body) {
  const headers = method === 'GET' ? {} : { 'idempotency-key': randomUUID() };
  const answer = await page.request.fetch(path, { method, headers, data: body });
  if (!answer.ok()) throw new Stop(`${method} ${path} answered ${await answer.text()}`);
  return await answer.json();
}

async function take(page, path, name) {
  await page.goto(path);
  await page.waitForLoadState('load');
  await page.locator('main').waitFor();
  await pause(1500);
  await page.screenshot({ path: join(pictures, name) });
  say(`docs/pictures/${name}`);
}

async function pictureOfBoard(browser, baseURL, { office }) {
  const context = await browser.newContext({ baseURL, viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto('/');
  await ask(page, 'POST', '/api/session', office);
  await take(page, '/board', 'board.png');
  await context.close();
}

/** A cell screen exists on a registered tablet only, so the manager registers this one first. */
async function pictureOfCell(browser, baseURL, { manager, operatorCode }) {
  const context = await browser.newContext({ baseURL, viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  await page.goto('/');
  await ask(page, 'POST', '/api/session', manager);
  const { cells } = await ask(page, 'GET', '/api/cells');
  const { people } = await ask(page, 'GET', '/api/people');
  const cell = cells.find(({ code }) => code === cellCode);
  const operator = people.find(({ code }) => code === operatorCode);
  await ask(page, 'POST', '/api/tablets', { name: `Tablet ${cellCode}`, cellId: cell.id });
  const { pin } = await ask(page, 'POST', `/api/people/${operator.id}/pin`);
  await ask(page, 'DELETE', '/api/session');
  await ask(page, 'POST', '/api/session/pin', { code: operatorCode, pin });
  await take(page, `/cell/${cellCode}`, 'cell.png');
  await context.close();
}

await main(async () => {
  await prepareBuild();
  const seed = await import(pathToFileURL(join(root, 'seed/dist/index.js')).href);
  const signIn = (code) => ({ code, password: seed.demoPassword });
  mkdirSync(pictures, { recursive: true });
  await withTool(async (address) => {
    const browser = await chromium.launch({
      executablePath: await findChromium(),
      args: ['--no-sandbox', '--disable-gpu'],
    });
    try {
      await pictureOfBoard(browser, address, { office: signIn('S01') });
      await pictureOfCell(browser, address, { manager: signIn('M01'), operatorCode: 'O03' });
    } finally {
      await browser.close();
    }
  });
});
