import type { Browser, Page } from 'playwright-core';
import { inject } from 'vitest';
import { startBrowser, tabletSize, type Screen } from './browser.js';
import { openTablet, pinOf } from './demo-people.js';
import { startTool, type Tool } from './tool.js';

interface RobotCell {
  readonly tool: Tool;
  readonly browser: Browser;
  /** The tablet of R1; nobody is signed in. */
  readonly screen: Screen;
  readonly page: Page;
  /** Of O03, an operator of R1. */
  readonly pin: string;
}

/** A copy of the demo shop, and a tablet at its robot cell R1. */
export async function startRobotCell(): Promise<RobotCell> {
  const [tool, browser] = await Promise.all([
    startTool({ copyOf: inject('demoFolder') }),
    startBrowser(),
  ]);
  const pin = await pinOf(browser, 'O03', tool.address);
  const screen = await openTablet(browser, 'R1', { address: tool.address, size: tabletSize });
  return { tool, browser, screen, page: screen.page, pin };
}
