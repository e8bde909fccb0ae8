import { languages } from '@tackboard/contract';

export type Language = (typeof languages)[number];

/** The screens that people at the cells use; all others are in English. */
const translated = ['/cell', '/sign-in'];

/**
 * The language of a screen: the one of who is signed in, else the one last chosen on this device.
 * A screen without translations is in English as a whole, so that no page mixes two languages.
 */
export function languageAt(
  path: string,
  { person, device }: { readonly person: Language | null; readonly device: Language },
): Language {
  return isTranslated(path) ? (person ?? device) : 'en';
}

export function isTranslated(path: string): boolean {
  return translated.some((one) => path === one || path.startsWith(`${one}/`));
}

/** A language in its own words: "Deutsch", "Español". */
function ownName(language: Language): string {
  const name = new Intl.DisplayNames([language], { type: 'language' }).of(language) ?? language;
  return name.charAt(0).toLocaleUpperCase(language) + name.slice(1);
}

/** The choices of a language, each in its own words. */
export function languageChoices(): { value: Language; label: string }[] {
  return languages.map((value) => ({ value, label: ownName(value) }));
}

export function isLanguage(value: unknown): value is Language {
  return languages.some((one) => one === value);
}
