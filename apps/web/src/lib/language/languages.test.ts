import { describe, expect, it } from 'vitest';
import { isLanguage, isTranslated, languageAt, languageChoices } from './languages.js';

describe('the language of a screen', () => {
  it('is the one of who is signed in, whatever the device last chose', () => {
    expect(languageAt('/cell/R1', { person: 'pl', device: 'de' })).toBe('pl');
  });
  it('is the one last chosen on the device while nobody is signed in', () => {
    expect(languageAt('/cell', { person: null, device: 'de' })).toBe('de');
    expect(languageAt('/sign-in', { person: null, device: 'es' })).toBe('es');
  });
  it('is English on the screens of the office', () => {
    for (const path of ['/board', '/cells', '/cells/new', '/account', '/'])
      expect(languageAt(path, { person: 'pl', device: 'de' })).toBe('en');
  });
});

describe('isTranslated', () => {
  it('does not take the page of the cells for a cell', () => {
    expect(isTranslated('/cell/R1')).toBe(true);
    expect(isTranslated('/cells')).toBe(false);
  });
});

/** The names of the languages in themselves, as in Unicode CLDR, from memory. */
it('names each language in its own words', () => {
  expect(languageChoices().map(({ label }) => label)).toEqual([
    'English',
    'Deutsch',
    'Español',
    'Polski',
  ]);
});

it('knows its languages', () => {
  expect(isLanguage('de')).toBe(true);
  expect(isLanguage('xx')).toBe(false);
  expect(isLanguage(null)).toBe(false);
});
