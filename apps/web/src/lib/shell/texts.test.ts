import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const web = path.resolve(import.meta.dirname, '../../..');
const textFolder = path.join(web, 'messages');

interface Entry {
  readonly key: string;
  readonly file: string;
}

function entriesOf(locale: string): Entry[] {
  return readdirSync(path.join(textFolder, locale)).flatMap((file) => {
    const texts = JSON.parse(readFileSync(path.join(textFolder, locale, file), 'utf8')) as Record<
      string,
      unknown
    >;
    return Object.keys(texts).map((key) => ({ key, file }));
  });
}

function sourceFiles(): string[] {
  const root = path.join(web, 'src');
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(svelte|ts)$/.test(name) && !name.endsWith('.test.ts'))
    .filter((name) => !name.startsWith(path.join('lib', 'paraglide')))
    .map((name) => path.join(root, name));
}

/** Keys are always written out (`m.order_due_label`), so that this check can see them. */
function usedKeys(): Set<string> {
  const used = new Set<string>();
  for (const file of sourceFiles()) {
    for (const match of readFileSync(file, 'utf8').matchAll(/\bm\.([a-z][A-Za-z0-9_]*)\b/g))
      used.add(match[1] ?? '');
  }
  return used;
}

const locales = readdirSync(textFolder);
const settings = JSON.parse(
  readFileSync(path.join(web, 'project.inlang/settings.json'), 'utf8'),
) as {
  locales: string[];
  'plugin.inlang.messageFormat': { pathPattern: string[] };
};

describe('texts on the screens', () => {
  const english = entriesOf('en');

  it('holds every text that a screen asks for', () => {
    const known = new Set(english.map((entry) => entry.key));
    expect([...usedKeys()].filter((key) => !known.has(key))).toEqual([]);
  });
  it('holds no text that no screen shows', () => {
    const used = usedKeys();
    expect(english.filter((entry) => !used.has(entry.key))).toEqual([]);
  });
  it('holds each key once', () => {
    const keys = english.map((entry) => entry.key);
    expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
  });
  it.each(locales)('holds the same keys in %s as in English', (locale) => {
    const keys = entriesOf(locale).map((entry) => entry.key);
    expect(keys.toSorted()).toEqual(english.map((entry) => entry.key).toSorted());
  });
  it('reads every text file of every language', () => {
    expect(settings.locales.toSorted()).toEqual(locales.toSorted());
    const read = settings['plugin.inlang.messageFormat'].pathPattern.map((pattern) =>
      path.basename(pattern),
    );
    for (const locale of locales)
      expect(readdirSync(path.join(textFolder, locale)).toSorted()).toEqual(read.toSorted());
  });
});
