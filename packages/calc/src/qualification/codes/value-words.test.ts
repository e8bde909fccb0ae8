import { expect, it } from 'vitest';
import { bandWords, limitShown, valueWords } from './value-words.js';

it('independent: says names of the rules in the words of ISO 857-1 and ISO 9606-1 and leaves designations and positions as they are', () => {
  expect(valueWords(['manual', 'partlyMechanised', 'fullyMechanised'])).toBe(
    'manual, partly mechanised, fully mechanised',
  );
  expect(valueWords(['tButt', 'partialButt', 'fillet'])).toBe(
    'butt at a T, butt of partial penetration, fillet',
  );
  expect(valueWords(['oneSide', 'oneSideBacked', 'bothSides', 'bothSidesGouged'])).toBe(
    'one side without backing, one side on backing, both sides without back gouging, both sides with back gouging',
  );
  expect(valueWords(['single', 'multi', 'PB', '1.2', 'G3Si1'])).toBe(
    'single run, several runs, PB, 1.2, G3Si1',
  );
});

it.each([
  [{ min: 3, max: 24 }, 'mm', '3 to 24 mm'],
  [{ min: null, max: 250 }, 'degC', 'up to 250 °C'],
  [{ min: 80, max: null }, 'degC', '80 °C and more'],
  [{ min: 500, max: null, minOpen: true }, 'mm', 'over 500 mm'],
  [{ min: 0.95123, max: 0.95129 }, null, '0.9512 to 0.9513'],
  [{ min: null, max: null }, 'mm', 'no limit'],
] as const)('independent: says %o in %s as %s, by hand', (band, unit, words) => {
  expect(bandWords(band, unit)).toBe(words);
});

it('independent: shows four decimals of a limit, by hand', () => {
  expect(limitShown(1.1 * 3)).toBe(3.3);
  expect(limitShown(0.95126)).toBe(0.9513);
});
