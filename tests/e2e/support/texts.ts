import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../../apps/web/messages/', import.meta.url));

/** The texts of the screens at the cell in a language, as they are on file. */
export function textsIn(
  language: string,
): (key: string, values?: Record<string, unknown>) => string {
  const texts = Object.assign(
    {},
    ...['shell', 'cell'].map((file) =>
      JSON.parse(readFileSync(`${folder}${language}/${file}.json`, 'utf8')),
    ),
  ) as Record<string, string>;
  return (key, values = {}) => {
    const text = texts[key];
    if (text === undefined) throw new Error(`There is no text ${key} in ${language}.`);
    return text.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name]));
  };
}
