import { describe, expect, it } from 'vitest';
import { listFrom, rangeInWords } from './certificate-words.js';

const words = {
  from: (value: string) => `${value} or more`,
  upTo: (value: string) => `up to ${value}`,
  any: 'any',
};

/** Own wording; limits as printed on a certificate. */
describe('rangeInWords', () => {
  it.each([
    [{ min: 3, max: 12 }, '3 \u2013 12 mm'],
    [{ min: 3, max: null }, '3 mm or more'],
    [{ min: null, max: 12.5 }, 'up to 12.5 mm'],
    [{ min: null, max: null }, 'any'],
    [{ min: 0, max: 3 }, '0 \u2013 3 mm'],
  ])('says %j', (range, text) => {
    expect(rangeInWords(range, { unit: 'mm', number: String }, words)).toBe(text);
  });
});

describe('listFrom', () => {
  it('takes commas, semicolons and line ends and drops empty parts', () => {
    expect(listFrom('1.1, 1.2;\n 8.1,,')).toEqual(['1.1', '1.2', '8.1']);
  });
});
