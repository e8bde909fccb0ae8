import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { findChromium } from './preparation/chromium.mjs';
import { prepareBuild } from './preparation/prepare.mjs';
import { Stop, main, root, run } from './preparation/run.mjs';

const report = '.cache/test-report.json';

/** Counts for the closing line; a test file that could not be loaded counts as one failure. */
function countsFrom(path) {
  if (!existsSync(path)) return { passed: 0, failed: 0, skipped: 0 };
  const { testResults, numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
    readFileSync(path, 'utf8'),
  );
  const unloaded = testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.every((t) => t.status !== 'failed'),
  );
  return {
    passed: numPassedTests,
    failed: numFailedTests + unloaded.length,
    skipped: numPendingTests + numTodoTests,
  };
}

await main(async () => {
  await prepareBuild();
  const chromium = await findChromium();
  rmSync(join(root, report), { force: true });
  const code = await run(
    join('node_modules', '.bin', 'vitest'),
    [
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${report}`,
      ...process.argv.slice(2),
    ],
    { env: { TACKBOARD_CHROMIUM: chromium } },
  );
  const { passed, failed, skipped } = countsFrom(join(root, report));
  const closing = `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
  process.stdout.write(`${closing}\n`);
  if (passed + failed === 0) throw new Stop('No test ran.');
  process.exitCode = code === 0 && failed === 0 ? 0 : 1;
});
