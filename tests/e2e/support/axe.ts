import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** WCAG 2.2 at levels A and AA, and the practices that axe itself rates as serious. */
const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Text at 7:1, WCAG 2.2 success criterion 1.4.6 (contrast, enhanced). */
export const enhancedContrast: RunOptions = {
  runOnly: { type: 'rule', values: ['color-contrast-enhanced'] },
  rules: { 'color-contrast-enhanced': { enabled: true } },
};

const everyLevel: RunOptions = { runOnly: { type: 'tag', values: levels } };

/** Faults on the page as it stands, each with the rule and the place. */
export async function faultsOn(page: Page, options = everyLevel): Promise<readonly string[]> {
  await page.evaluate(source);
  const { violations } = await page.evaluate(
    async (wanted) =>
      (globalThis as unknown as { axe: { run(o: unknown): Promise<AxeResults> } }).axe.run(wanted),
    options as unknown as Record<string, unknown>,
  );
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map((node) => `${id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`),
    );
}
