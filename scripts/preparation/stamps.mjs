import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './run.mjs';

const made = new Set([
  'node_modules',
  'dist',
  'build',
  '.svelte-kit',
  'generated',
  'paraglide',
  'coverage',
]);

function* filesUnder(path) {
  const absolute = join(root, path);
  if (!existsSync(absolute)) return;
  if (statSync(absolute).isFile()) {
    yield path;
    return;
  }
  for (const name of readdirSync(absolute).sort()) {
    if (!made.has(name)) yield* filesUnder(`${path}/${name}`);
  }
}

/** One hash over the names and contents of every file under the given paths, made files left out. */
export function hashOf(paths) {
  const hash = createHash('sha256');
  for (const path of paths) {
    for (const file of filesUnder(path)) {
      hash
        .update(file)
        .update('\0')
        .update(readFileSync(join(root, file)))
        .update('\0');
    }
  }
  return hash.digest('hex');
}

function stampFile(name) {
  return join(root, '.cache', `${name}.stamp`);
}

/** Whether a step's outputs exist and were made from inputs with this hash. */
export function isCurrent({ name, hash, outputs }) {
  if (!outputs.every((output) => existsSync(join(root, output)))) return false;
  const file = stampFile(name);
  return existsSync(file) && readFileSync(file, 'utf8') === hash;
}

export function stamp({ name, hash }) {
  mkdirSync(join(root, '.cache'), { recursive: true });
  writeFileSync(stampFile(name), hash);
}
