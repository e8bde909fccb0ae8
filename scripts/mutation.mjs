import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { Stop, main, mustRun, root } from './preparation/run.mjs';

const configFile = 'packages/calc/stryker.config.json';
const sources = 'packages/calc/src';

/** The files of the folders that are named, without what the settings leave out; nothing where none is named. */
function chosen(folders) {
  if (folders.length === 0) return [];
  const missing = folders.find((folder) => !isFolder(join(root, sources, folder)));
  if (missing !== undefined) throw new Stop(`${sources} has no folder ${missing}.`);
  const { mutate } = JSON.parse(readFileSync(join(root, configFile), 'utf8'));
  const leftOut = mutate.filter((pattern) => pattern.startsWith('!'));
  return ['--mutate', [...folders.map((name) => `${sources}/${name}/**/*.ts`), ...leftOut].join()];
}

function isFolder(path) {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

await main(async () => {
  const stryker = join('node_modules', '.bin', 'stryker');
  await mustRun('mutation test', stryker, ['run', configFile, ...chosen(process.argv.slice(2))]);
});
