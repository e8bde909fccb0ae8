import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const web = path.resolve(import.meta.dirname, '../../..');
const textFolder = path.join(web, 'messages');

interface Entry {
  readonly key: string;
  readonly file: string;
  readonly text: string;
}

/** What a screen at the cell can show; the screens of the office are in English. */
const translatedFiles = ['cell.json', 'gear.json', 'joint.json', 'shell.json', 'units.json'];

/** Texts that are nothing but a name, a sign or the places of their values. */
const sameEverywhere = [
  'shell_name',
  'cell_wps_rev',
  'cell_weld_line',
  'cell_scan_place',
  'units_echo',
  'units_echo_of',
  'units_ask_alone',
  'ui_pad_sign',
];

/** Words that a language has in common with English. */
const sameWords: Readonly<Record<string, readonly string[]>> = {
  de: ['cell_var_position', 'nav_tablets'],
  es: ['cells_mech_manual', 'cell_another_no'],
  pl: ['cell_program'],
};

function entriesOf(locale: string): Entry[] {
  return readdirSync(path.join(textFolder, locale)).flatMap((file) => {
    const texts = JSON.parse(readFileSync(path.join(textFolder, locale, file), 'utf8')) as Record<
      string,
      string
    >;
    return Object.entries(texts).map(([key, text]) => ({ key, file, text }));
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
function textsOf(files: Iterable<string>): Set<string> {
  const used = new Set<string>();
  for (const file of files) {
    for (const match of readFileSync(file, 'utf8').matchAll(/\bm\.([a-z][A-Za-z0-9_]*)\b/g))
      used.add(match[1] ?? '');
  }
  return used;
}

const cellScreens = [
  'routes/+layout.svelte',
  'routes/cell/+page.svelte',
  'routes/cell/[code]/+page.svelte',
  'routes/sign-in/+page.svelte',
];

/** What a file takes from another, at once or, as the forms of the cell, when it is asked for. */
const importPattern = /(?:from |\bimport\(?\s*)'(\$lib\/|\.)([^']+)'/g;

/** These screens and all that they are made of. */
function filesOf(screens: readonly string[]): Set<string> {
  const found = new Set<string>();
  const add = (file: string | null) => {
    if (file === null || found.has(file) || file.includes('paraglide')) return;
    found.add(file);
    for (const match of readFileSync(file, 'utf8').matchAll(importPattern))
      add(sourceOf(file, match[1] ?? '', match[2] ?? ''));
  };
  for (const screen of screens) add(path.join(web, 'src', screen));
  return found;
}

/** The source that an import names; null for what is not code of the screens. */
function sourceOf(from: string, start: string, rest: string): string | null {
  const named =
    start === '.' ? path.resolve(path.dirname(from), `.${rest}`) : path.join(web, 'src/lib', rest);
  const source = named.replace(/\.js$/, '.ts');
  return existsSync(source) ? source : null;
}

/** The values that a text has places for. */
function placesIn(text: string): string {
  return [...text.matchAll(/\{(\w+)\}/g)]
    .map((match) => match[1] ?? '')
    .toSorted()
    .join(' ');
}

/** The units that a text writes behind its values; a value that brings its own unit must not get a second one. */
function unitsIn(text: string): string {
  return [...text.matchAll(/\}\s?(%|°C|mm²|mm|kg|g|s|min)(?![\p{L}\d²])/gu)]
    .map((match) => match[1] ?? '')
    .toSorted()
    .join(' ');
}

const locales = readdirSync(textFolder);
const others = locales.filter((locale) => locale !== 'en');
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
    expect([...textsOf(sourceFiles())].filter((key) => !known.has(key))).toEqual([]);
  });
  it('holds no text that no screen shows', () => {
    const used = textsOf(sourceFiles());
    expect(english.filter((entry) => !used.has(entry.key))).toEqual([]);
  });
  it('holds each key once', () => {
    const keys = english.map((entry) => entry.key);
    expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
  });
  it('reads every text file, the office’s in English alone', () => {
    expect(settings.locales.toSorted()).toEqual(locales.toSorted());
    const read = settings['plugin.inlang.messageFormat'].pathPattern.map((pattern) =>
      path.basename(pattern),
    );
    expect(readdirSync(path.join(textFolder, 'en')).toSorted()).toEqual(read.toSorted());
    for (const locale of others)
      expect(readdirSync(path.join(textFolder, locale)).toSorted()).toEqual(translatedFiles);
  });
  it('translates every text that a screen at the cell can show', () => {
    const fileOf = new Map(english.map(({ key, file }) => [key, file]));
    const shown = textsOf(filesOf(cellScreens));
    expect(shown.size).toBeGreaterThan(200);
    expect([...shown].filter((key) => !translatedFiles.includes(fileOf.get(key) ?? ''))).toEqual(
      [],
    );
  });
});

describe.each(others)('texts at the cell in %s', (locale) => {
  const english = entriesOf('en').filter(({ file }) => translatedFiles.includes(file));
  const texts = new Map(entriesOf(locale).map((entry) => [entry.key, entry]));
  const same = [...sameEverywhere, ...(sameWords[locale] ?? [])];

  it('are the same ones, in the same files, as in English', () => {
    const place = ({ key, file }: Entry) => `${file} ${key}`;
    expect([...texts.values()].map(place).toSorted()).toEqual(english.map(place).toSorted());
  });
  it('have places for the same values', () => {
    const differing = english.filter(
      ({ key, text }) => placesIn(text) !== placesIn(texts.get(key)?.text ?? ''),
    );
    expect(differing).toEqual([]);
  });
  it('write the same units behind the values', () => {
    const differing = english.filter(
      ({ key, text }) => unitsIn(text) !== unitsIn(texts.get(key)?.text ?? ''),
    );
    expect(differing).toEqual([]);
  });
  it('are not left in English, but for words that are the same', () => {
    const alike = english.filter(({ key, text }) => texts.get(key)?.text === text);
    expect(alike.map(({ key }) => key).toSorted()).toEqual(same.toSorted());
  });
  it('are not empty', () => {
    expect([...texts.values()].filter(({ text }) => text.trim() === '')).toEqual([]);
  });
});
