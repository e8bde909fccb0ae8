import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Stop, main, root } from './preparation/run.mjs';

/** Progress goes to the error stream: the figures stand alone on the output. */
function make(what, script, args = []) {
  const { status } = spawnSync(process.execPath, [join(root, script), ...args], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  });
  if (status !== 0) throw new Stop(`${what} failed; the lines above say why.`);
}

function readWishes() {
  const options = { json: { type: 'boolean', default: false }, rows: { type: 'string' } };
  try {
    return parseArgs({ options }).values;
  } catch (error) {
    throw new Stop(`${error.message}\nUse: npm run bench -- [--rows NAME,NAME] [--json]`);
  }
}

await main(async () => {
  const wishes = readWishes();
  make('The build', 'scripts/build.mjs');
  make('Compiling the bench', 'node_modules/typescript/bin/tsc', ['-p', 'tests/bench']);
  const { bench, rowNames } = await import(pathToFileURL(join(root, '.cache/bench/main.js')).href);
  const rows = wishes.rows?.split(',') ?? rowNames;
  const unknown = rows.find((row) => !rowNames.includes(row));
  if (unknown !== undefined)
    throw new Stop(`There is no row "${unknown}": --rows names some of ${rowNames.join(', ')}.`);
  await bench(root, { json: wishes.json, rows });
});
