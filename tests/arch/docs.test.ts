import { describe, expect, it } from 'vitest';
import { linksIn, pathsIn, scriptsNamedIn } from './markdown.js';
import { projectFiles, textOf } from './tracked.js';

const files = projectFiles();
const documents = files
  .filter((path) => path.endsWith('.md'))
  .map((file) => ({ file, text: textOf(file) }));

const known = new Set(files.flatMap(withFolders));
const baseNames = new Set(files.map((path) => path.split('/').at(-1)));
const topFolders = new Set(
  files.filter((path) => path.includes('/')).map((path) => path.split('/')[0] ?? ''),
);

// Made by a command instead of tracked; named where a reader has to look for them.
const made = ['data', 'node_modules', '.cache', 'apps/web/build', 'apps/api/src/db/generated'];

function withFolders(path: string): string[] {
  const parts = path.split('/');
  return parts.map((_, index) => parts.slice(0, index + 1).join('/'));
}

function exists(name: string): boolean {
  const path = name.replace(/\/$/, '');
  if (known.has(path)) return true;
  if (!path.includes('/') && baseNames.has(path)) return true;
  return made.some((folder) => path === folder || path.startsWith(`${folder}/`));
}

describe('documents', () => {
  it('name only files and folders that exist', () => {
    const mentions = documents.flatMap((document) => [
      ...linksIn(document),
      ...pathsIn(document, topFolders),
    ]);
    expect(mentions.length).toBeGreaterThan(20);
    expect(mentions.filter(({ name }) => !exists(name))).toEqual([]);
  });

  it('name only npm scripts that exist', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };
    const mentions = documents.flatMap(scriptsNamedIn);
    expect(mentions.map(({ name }) => name)).toEqual(expect.arrayContaining(['start', 'test']));
    expect(mentions.filter(({ name }) => !(name in scripts))).toEqual([]);
  });
});

describe('what counts as a mention', () => {
  it('a link, taken from the folder of the document', () => {
    const text = '[up](../README.md#two-commands) [out](https://example.org/a.md) [here](#words)';
    expect(linksIn({ file: 'docs/x.md', text })).toEqual([
      { file: 'docs/x.md', name: 'README.md' },
    ]);
  });

  it('a path in a code span, but no unit', () => {
    const text = '`docs/gone/`, `gone.ts`, `m/min`, `docs/<area>/x.md`, docs/plain.md';
    expect(pathsIn({ file: 'a.md', text }, new Set(['docs'])).map(({ name }) => name)).toEqual([
      'docs/gone/',
      'gone.ts',
    ]);
  });

  it('a script that npm is told to run, but no command of npm itself', () => {
    const text = 'Run `npm run migration:new` or npm test; `npm ci` is for a fresh clone.';
    expect(scriptsNamedIn({ file: 'a.md', text }).map(({ name }) => name)).toEqual([
      'migration:new',
      'test',
    ]);
  });
});
