import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';
import { measureShop } from './measure-shop.js';
import { inWords, reportOf } from './report.js';
import { oneYear, threeYears } from './shop/size.js';
import { testsToMakeS } from './tests-to-make.js';
import { findProceduresS, jobFitMs, weldFitUs, wholeWeldUs } from './weld-fit.js';

/**
 * Loads one and three years of a busy shop and prints the service beside the same SQL run raw. Figures never make it
 * fail: they depend on the machine and on what else it does.
 */
export async function bench(root: string, { json }: { readonly json: boolean }): Promise<void> {
  const startedAt = performance.now();
  const folder = mkdtempSync(path.join(tmpdir(), 'tackboard-bench-'));
  const say = (line: string) => process.stderr.write(`tackboard: ${line}\n`);
  try {
    const where = { root, folder, say };
    const shops = {
      one: await measureShop(oneYear, where),
      three: await measureShop(threeYears, where),
    };
    const report = reportOf(shops, {
      weldFitUs: weldFitUs(),
      jobFitMs: jobFitMs(),
      wholeWeldUs: wholeWeldUs(),
      findProceduresS: findProceduresS(),
      testsToMake: await testsToMakeS(),
      machine: { node: process.version, cpus: cpus().length, cpu: cpus()[0]?.model ?? 'unknown' },
      tookS: Math.round((performance.now() - startedAt) / 1000),
    });
    process.stdout.write(json ? `${JSON.stringify(report, null, 2)}\n` : inWords(report));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
