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

/**
 * Lets a screen load English and the one language that is chosen. As compiled, every screen would carry the texts
 * of every language.
 */
export function textsOnDemand() {
  return {
    name: 'texts-on-demand',
    enforce: 'pre',
    transform(code, id) {
      const [, folder, file] = /^(.*\/paraglide\/messages)\/(\w+)\.js$/.exec(id) ?? [];
      if (file === undefined || file === base) return null;
      if (file !== '_index') return { code: languageAlone(code), map: null };
      return { code: dispatcher(code, translatedNames(folder)), map: null };
    },
  };
}
