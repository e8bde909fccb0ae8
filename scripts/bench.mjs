import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { Stop, main, root } from './preparation/run.mjs';

/** Progress goes to the error stream: the figures stand alone on the output. */
function make(what, script, args = []) {
  const { status } = spawnSync(process.execPath, [join(root, script), ...args], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  });
  if (status !== 0) throw new Stop(`${what} failed; the lines above say why.`);
}

await main(async () => {
  make('The build', 'scripts/build.mjs');
  make('Compiling the bench', 'node_modules/typescript/bin/tsc', ['-p', 'tests/bench']);
  const { bench } = await import(pathToFileURL(join(root, '.cache/bench/main.js')).href);
  await bench(root, { json: process.argv.includes('--json') });
});
