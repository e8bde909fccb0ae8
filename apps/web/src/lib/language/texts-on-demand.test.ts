import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  dispatcher,
  languageAlone,
  onlyTexts,
  translatedNames,
} from '../../../adapter/texts-on-demand.js';

/** As the compiler of the texts writes them, shortened by the comments. */
const compiled = `import { getLocale, experimentalStaticLocale } from "../runtime.js"
import * as __en from "./en.js"
import * as __de from "./de.js"
export const cell_good = ((inputs = {}, options = {}) => {
	const locale = experimentalStaticLocale ?? options.locale ?? getLocale()
	if (locale === "de") return __de.cell_good(inputs)
	return __en.cell_good(inputs)
});
export const board_late = ((inputs = {}, options = {}) => {
	experimentalStaticLocale ?? options.locale ?? getLocale()
	return __en.board_late(inputs)
});
`;

describe('dispatcher', () => {
  const code = dispatcher(compiled, new Set(['cell_good']));

  it('carries English alone', () => {
    expect(code).toContain('import * as __en');
    expect(code).not.toContain('__de');
  });
  it('asks the loaded language first, for the texts that have a translation', () => {
    expect(code).toContain('return (__language.texts.cell_good ?? __en.cell_good)(inputs)');
    expect(code).toContain('return __en.board_late(inputs)');
  });
  it('leaves nothing of the choice that was compiled', () => {
    expect(code.replace(/^import .*$/gm, '')).not.toMatch(/locale|Locale/);
  });
});

describe('languageAlone', () => {
  it('drops the texts that fall back to English', () => {
    const code = 'export const cell_good = () => `Gut`\nexport { board_late } from "./en.js"\n';
    expect(languageAlone(code)).toBe('export const cell_good = () => `Gut`\n');
  });
});

describe('onlyTexts', () => {
  const named = `${compiled}export { cell_good as "cell_Good" }\n`;

  it('keeps the texts that are asked for, under all their names', () => {
    const cell = onlyTexts(named, (name: string) => name.startsWith('cell_'));
    expect(cell.match(/^export .*?[\w"]+(?= =| as|")/gm)).toHaveLength(2);
    expect(cell).not.toContain('board_late');
    const office = onlyTexts(named, (name: string) => name.startsWith('board_'));
    expect(office).toContain('__en.board_late(inputs)');
    expect(office).not.toContain('cell_good');
  });
});

describe('the texts of this app, as compiled', () => {
  const web = path.resolve(import.meta.dirname, '../../..');
  const compiled = path.join(web, 'src/lib/paraglide/messages');

  it('asks the loaded language for every text that the translators wrote', () => {
    const folder = path.join(web, 'messages/de');
    const written = readdirSync(folder).flatMap((file) =>
      Object.keys(JSON.parse(readFileSync(path.join(folder, file), 'utf8')) as object),
    );
    const index = readFileSync(path.join(compiled, '_index.js'), 'utf8');
    const asked = dispatcher(index, translatedNames(compiled)).matchAll(/__language\.texts\.\w+/g);
    expect([...asked]).toHaveLength(written.length);
  });

  it.each(['_index', 'en'])('come apart without a rest: %s', (file) => {
    const code = readFileSync(path.join(compiled, `${file}.js`), 'utf8');
    const names = translatedNames(compiled);
    const texts = (some: string) => some.match(/^export (const|\{)/gm)?.length ?? 0;
    const cell = onlyTexts(code, (name: string) => names.has(name));
    const office = onlyTexts(code, (name: string) => !names.has(name));
    expect(texts(cell)).toBeGreaterThan(100);
    expect(texts(cell) + texts(office)).toBe(texts(code));
  });
});
