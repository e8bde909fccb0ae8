import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';

const build = fileURLToPath(new URL('../../apps/web/build/', import.meta.url));
const app = path.join(build, '_app/immutable');
/** What a tablet fetches over a slow radio before it can be worked with; what a tap opens and the drawings come later. */
const limitBytes = 150_000;

/** Scripts that a script asks for as it starts; what it imports by a call is fetched at a tap. */
const startImports =
  /(?:^|[;}\s])(?:import|export)\s*(?:[\w*{][^"'()]*?from\s*)?["'](\.[^"']+\.js)["']/g;

function withImports(file: string, seen: Set<string>): void {
  if (seen.has(file)) return;
  seen.add(file);
  for (const [, name = ''] of readFileSync(file, 'utf8').matchAll(startImports))
    withImports(path.resolve(path.dirname(file), name), seen);
}

/** The scripts of the page of one cell: the two entries, the layout, the page, and all that they import. */
function cellScripts(): ReadonlySet<string> {
  const entry = path.join(app, 'entry');
  const seen = new Set<string>();
  for (const file of readdirSync(entry)) withImports(path.join(entry, file), seen);
  const table = [...seen].find((file) => readFileSync(file, 'utf8').includes('"/cell/[code]"'));
  expect(table, 'the table of pages').toBeDefined();
  const text = table === undefined ? '' : readFileSync(table, 'utf8');
  // `"/cell/[code]":[8]` names the node of the page; nodes 0 and 1 are the layout and the error page.
  const node = /"\/cell\/\[code\]":\[~?(\d+)/.exec(text)?.[1];
  expect(node, 'the page of a cell').toBeDefined();
  const nodes = readdirSync(path.join(app, 'nodes'));
  for (const number of ['0', node ?? '']) {
    const file = nodes.find((name) => name.startsWith(`${number}.`));
    expect(file, `node ${number}`).toBeDefined();
    if (file !== undefined) withImports(path.join(app, 'nodes', file), seen);
  }
  return seen;
}

it('the page of a cell loads less than 150 kB of compressed script', () => {
  expect(existsSync(app), 'the screens are built').toBe(true);
  const scripts = cellScripts();
  const sizes = [...scripts].map((file) => ({
    file: path.relative(app, file),
    bytes: gzipSync(readFileSync(file), { level: 9 }).length,
  }));
  const bytes = sizes.reduce((sum, each) => sum + each.bytes, 0);
  expect(scripts.size).toBeGreaterThan(5);
  const largest = sizes.toSorted((one, other) => other.bytes - one.bytes).slice(0, 12);
  expect(bytes, JSON.stringify(largest, null, 1)).toBeLessThan(limitBytes);
});
