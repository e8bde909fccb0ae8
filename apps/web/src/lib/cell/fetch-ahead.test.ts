import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const folder = import.meta.dirname;

function loadedBy(file: string): string[] {
  const source = readFileSync(path.join(folder, file), 'utf8');
  return [...source.matchAll(/\bimport\('([^']+)'\)/g)].map((match) => match[1] ?? '');
}

it('fetches ahead all that the cell screen loads when it is asked for', () => {
  const screens = readdirSync(folder).filter((name) => name.endsWith('.svelte'));
  const loaded = new Set(screens.flatMap((name) => loadedBy(name)));
  expect(loaded.size).toBeGreaterThan(5);
  expect(loadedBy('fetch-ahead.ts').toSorted()).toEqual([...loaded].toSorted());
});
