import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';
import { boardScreen } from './board-screen.js';
import { cellScreen } from './cell-screen.js';
import { measureShop, type Where } from './measure-shop.js';
import { orderOfWork } from './order-of-work.js';
import { inWords, reportOf, type Measured } from './report.js';
import { oneYear, threeYears } from './shop/size.js';
import { testsToMakeS } from './tests-to-make.js';
import { findProceduresS, jobFitMs, weldFitUs, wholeWeldUs } from './weld-fit.js';

/** What can be asked for alone, by name. */
const rows = {
  shops: async (where: Where) => ({
    shops: { one: await measureShop(oneYear, where), three: await measureShop(threeYears, where) },
  }),
  welds: async () => ({
    welds: {
      ...{ weldFitUs: weldFitUs(), jobFitMs: jobFitMs(), wholeWeldUs: wholeWeldUs() },
      findProceduresS: findProceduresS(),
    },
  }),
  tests: async () => ({ testsToMake: await testsToMakeS() }),
  order: async (where: Where) => ({ orderOfWork: await orderOfWork(where) }),
  board: async (where: Where) => ({ boardScreen: await boardScreen(where) }),
  cell: async (where: Where) => ({ cellScreen: await cellScreen(where) }),
} satisfies Record<string, (where: Where) => Promise<Partial<Measured>>>;
export const rowNames = Object.keys(rows) as (keyof typeof rows)[];

/**
 * Measures the rows that are asked for: a shop of one and of three years beside the same SQL run raw, welds, tests to
 * make, the order of work, and in Chromium the board and the screen of a cell. Figures never make it fail: they depend on the
 * machine and on what else it does.
 */
export async function bench(
  root: string,
  asked: { readonly json: boolean; readonly rows: readonly string[] },
): Promise<void> {
  const startedAt = performance.now();
  const folder = mkdtempSync(path.join(tmpdir(), 'tackboard-bench-'));
  const say = (line: string) => process.stderr.write(`tackboard: ${line}\n`);
  try {
    let measured: Partial<Measured> = {};
    for (const name of rowNames.filter((each) => asked.rows.includes(each)))
      measured = { ...measured, ...(await rows[name]({ root, folder, say })) };
    const report = reportOf(measured, {
      machine: { node: process.version, cpus: cpus().length, cpu: cpus()[0]?.model ?? 'unknown' },
      tookS: Math.round((performance.now() - startedAt) / 1000),
    });
    process.stdout.write(asked.json ? `${JSON.stringify(report, null, 2)}\n` : inWords(report));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
