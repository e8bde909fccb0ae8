import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const folder = import.meta.dirname;

it('keeps all that the cell screen fetches later in two lists, which are fetched ahead', () => {
  const loading = readdirSync(folder)
    .filter((name) => name.endsWith('.svelte') || name.endsWith('.ts'))
    .filter((name) => /\bimport\('/.test(readFileSync(path.join(folder, name), 'utf8')));
  expect(loading).toEqual(['later-forms.ts', 'later-parts.ts']);
});
