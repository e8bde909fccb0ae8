import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

export const officeSize = { width: 1440, height: 900 };
/** A 10-inch tablet at the cell. */
export const tabletSize = { width: 1280, height: 800 };

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export async function startBrowser(): Promise<Browser> {
  const executablePath = process.env['TACKBOARD_CHROMIUM'] ?? '/usr/bin/chromium';
  if (!existsSync(executablePath)) {
    throw new Error(
      `There is no Chromium at ${executablePath}. Install one or name it in TACKBOARD_CHROMIUM.`,
    );
  }
  return chromium.launch({ executablePath, args: flags });
}

export interface Screen {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the browser complained of since the last call: script errors, refused content, failed requests. */
  complaints(): readonly string[];
  close(): Promise<void>;
}

export interface ScreenOptions {
  readonly address: string;
  readonly size?: { readonly width: number; readonly height: number };
  readonly theme?: 'light' | 'dark';
}

/** One device with its own cookies: a computer in the office or a tablet at a cell. */
export async function openScreen(browser: Browser, options: ScreenOptions): Promise<Screen> {
  const { address, size = officeSize, theme = 'light' } = options;
  const context = await browser.newContext({
    baseURL: address,
    viewport: size,
    acceptDownloads: true,
    locale: 'en-GB',
    timezoneId: 'Europe/Berlin',
  });
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  let heard: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') heard.push(message.text());
  });
  page.on('pageerror', (error) => heard.push(`uncaught: ${error.message}`));
  await context.addInitScript((wanted) => {
    globalThis.localStorage.setItem('tackboard.theme', wanted);
  }, theme);
  return {
    page,
    context,
    complaints() {
      const told = heard;
      heard = [];
      return told;
    },
    async close() {
      await context.close();
    },
  };
}
