import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { Stop } from '../preparation/run.mjs';

/** Lists of exports, lists of works and helpers of tests: nothing in them to be held by a test of its own. */
const neverChanged = /(\.test|\/index|^index)\.ts$|^(sources|testing)\//;

/** The files to be changed, the others, and the names of the tests, all by their path below the folder. */
export function readSources(folder, names) {
  const all = readdirSync(folder, { recursive: true })
    .map((path) => path.split(sep).join('/'))
    .filter((name) => name.endsWith('.ts'))
    .toSorted();
  const lies = (path, name) => path === name || path.startsWith(`${name}/`);
  const missing = names.find((name) => !all.some((path) => lies(path, name)));
  if (missing !== undefined) throw new Stop(`${folder} has no folder or file ${missing}.`);
  const isChosen = (path) =>
    !neverChanged.test(path) && (names.length === 0 || names.some((name) => lies(path, name)));
  const read = (name) => ({ name, text: readFileSync(join(folder, name), 'utf8') });
  return {
    chosen: all.filter(isChosen).map(read),
    others: all.filter((path) => !isChosen(path)).map(read),
    tests: all.filter((path) => path.endsWith('.test.ts')),
  };
}
