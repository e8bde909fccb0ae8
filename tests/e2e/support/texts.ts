import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../../apps/web/messages/', import.meta.url));

function readTexts(language: string, file: string): Record<string, string> {
  const text = readFileSync(`${folder}${language}/${file}.json`, 'utf8');
  return JSON.parse(text) as Record<string, string>;
}

/** The texts of the screens at the cell in a language, as they are on file. */
export function textsIn(language: string): (key: string) => string {
  const files = ['shell', 'cell', 'gear'].map((file) => readTexts(language, file));
  const texts: Record<string, string> = Object.assign({}, ...files);
  return (key) => {
    const text = texts[key];
    if (text === undefined) throw new Error(`There is no text ${key} in ${language}.`);
    // A soft hyphen is no part of a button's name.
    return text.replaceAll('\u00ad', '');
  };
}
