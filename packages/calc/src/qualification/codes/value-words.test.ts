import { expect, it } from 'vitest';
import { valueWords } from './value-words.js';

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
