import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';

const base = 'en';
const kept = ['_index', base];
const keeper = '$lib/language/language.svelte.ts';

/** The names of the texts that any other language than English has, in the folder of the compiled texts. */
export function translatedNames(folder) {
  const names = readdirSync(folder)
    .filter((file) => !kept.includes(path.basename(file, '.js')))
    .flatMap((file) => [
      ...readFileSync(path.join(folder, file), 'utf8').matchAll(/^export const (\w+) =/gm),
    ]);
  return new Set(names.map(([, name]) => name));
}

/** Looks in the language that is loaded, then in English; texts without a translation are English at once. */
export function dispatcher(code, names) {
  const asked = code
    .replace(/^import \* as __(\w+) from .*\n/gm, (line, locale) => (locale === base ? line : ''))
    .replace(/^\s*(?:const locale = )?experimentalStaticLocale \?\?.*\n/gm, '')
    .replace(/^\s*if \(locale === .*\n/gm, '')
    .replace(/\breturn __en\.(\w+)\(/g, (text, name) =>
      names.has(name) ? `return (__language.texts.${name} ?? __en.${name})(` : text,
    );
  return `import { language as __language } from '${keeper}'\n${asked}`;
}

/** A language alone, without the English texts that it would fall back to. */
export function languageAlone(code) {
  return code.replace(/^export \{ \w+ \} from "\.\/en\.js"\n?/gm, '');
}

/** The texts of these names alone, of a module of the compiled texts. */
export function onlyTexts(code, keeps) {
  return code
    .replace(/^export const (\w+) =[\s\S]*?^\}\)?;$/gm, (text, name) => (keeps(name) ? text : ''))
    .replace(/^export \{ (\w+) as .*\n?/gm, (text, name) => (keeps(name) ? text : ''));
}

const parts = {
  /** What the screens at the cell show is translated; those of the office are in English alone. */
  cell: (names) => (name) => names.has(name),
  office: (names) => (name) => !names.has(name),
};

/**
 * Lets a screen load English and the one language that is chosen, and the screens at the cell no text of the office.
 * As compiled, every screen would carry all texts in every language.
 */
export function textsOnDemand() {
  return {
    name: 'texts-on-demand',
    enforce: 'pre',
    transform(code, id) {
      if (!/\/paraglide\/messages(\.js$|\/)/.test(id)) return null;
      // Whoever imports one text depends on no other: only so can they part.
      return { code: textsAt(code, id), map: null, moduleSideEffects: false };
    },
  };
}

function textsAt(code, id) {
  const [, folder, file, part] =
    /^(.*\/paraglide\/messages)\/(\w+)\.js(?:\?part=(\w+))?$/.exec(id) ?? [];
  if (file === undefined) return code;
  if (!kept.includes(file)) return languageAlone(code);
  if (part === undefined) {
    const doors = Object.keys(parts).map((each) => `export * from './${file}.js?part=${each}'`);
    return `${doors.join('\n')}\n`;
  }
  const names = translatedNames(folder);
  const own = onlyTexts(code, parts[part](names));
  if (file === base) return own;
  return dispatcher(own, names).replace(`from "./${base}.js"`, `from "./${base}.js?part=${part}"`);
}
