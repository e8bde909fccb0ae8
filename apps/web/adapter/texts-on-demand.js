import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';

const base = 'en';
const keeper = '$lib/language/language.svelte.ts';

/** The keys that any other language than English has a text for. */
export function translatedKeys(folder) {
  const locales = readdirSync(folder).filter((locale) => locale !== base);
  const keys = locales.flatMap((locale) =>
    readdirSync(path.join(folder, locale)).flatMap((file) =>
      Object.keys(JSON.parse(readFileSync(path.join(folder, locale, file), 'utf8'))),
    ),
  );
  return new Set(keys);
}

/** Looks in the language that is loaded, then in English; keys without a translation are English at once. */
export function dispatcher(code, keys) {
  const asked = code
    .replace(/^import \* as __(\w+) from .*\n/gm, (line, locale) => (locale === base ? line : ''))
    .replace(/^\s*(?:const locale = )?experimentalStaticLocale \?\?.*\n/gm, '')
    .replace(/^\s*if \(locale === .*\n/gm, '')
    .replace(/\breturn __en\.(\w+)\(/g, (text, key) =>
      keys.has(key) ? `return (__language.texts.${key} ?? __en.${key})(` : text,
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
export function textsOnDemand(folder) {
  const keys = translatedKeys(folder);
  return {
    name: 'texts-on-demand',
    enforce: 'pre',
    transform(code, id) {
      const [, file] = /\/paraglide\/messages\/(\w+)\.js$/.exec(id) ?? [];
      if (file === undefined || file === base) return null;
      return { code: file === '_index' ? dispatcher(code, keys) : languageAlone(code), map: null };
    },
  };
}
