import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it } from 'vitest';

const folder = mkdtempSync(path.join(tmpdir(), 'tackboard-mutation-'));
afterAll(() => rmSync(folder, { recursive: true }));

const code = `
  const most = 40;
  export function fits(mass: number): boolean { return mass <= most; }
  export function label(mass: number): string { return mass + ' kg'; }
  export function turns(count: number): number { let n = 0; for (; n < count; n += 1); return n; }
`;
const tests = `
  import { expect, it } from 'vitest';
  import { fits, label, turns } from './load.js';
  it.each([[40, true], [41, false]])('takes %s: %s', (mass, fit) => expect(fits(mass)).toBe(fit));
  it('counts', () => expect(turns(3)).toBe(3));
  it('names', () => { label(1); });
`;

function measured(...options: string[]) {
  writeFileSync(path.join(folder, 'load.ts'), code);
  writeFileSync(path.join(folder, 'load.test.ts'), tests);
  const script = path.resolve(import.meta.dirname, '../../scripts/mutation.mjs');
  return spawnSync(process.execPath, [script, '--sources', folder, ...options], {
    encoding: 'utf8',
  });
}

it('tells a change that a test notices from one that none does, and fails below the goal', () => {
  const json = path.join(folder, 'fates.json');
  const { status, stdout, stderr } = measured('load.ts', '--json', json);
  const fates = JSON.parse(readFileSync(json, 'utf8')) as { line: number; fate: string }[];
  const ofLine = (line: number) =>
    new Set(fates.filter((each) => each.line === line).map(({ fate }) => fate));
  expect(ofLine(3)).toEqual(new Set(['noticed']));
  expect(ofLine(4)).toEqual(new Set(['survived']));
  expect(ofLine(5)).toEqual(new Set(['noticed']));
  expect(stdout).toContain('load.ts:4:');
  expect(stderr).toMatch(/\d % of the changes were noticed, the goal is 90 %/);
  expect(status).toBe(1);
});
