import { describe, expect, it } from 'vitest';
import { overwriteGetLocale } from '../paraglide/runtime.js';
import { number, plainNumber, share } from './number.js';

/** Grouping by thin spaces, four-digit numbers left whole: ISO 80000-1:2022, 7.3.1. The minus is U+2212 as there. */
describe('number', () => {
  it.each([
    [9.4, 1, '9.4'],
    [1200, 0, '1200'],
    [12000, 0, '12\u2009000'],
    [-3.25, 1, '\u22123.3'],
    [-0.01, 1, '0.0'],
    [1234567.891, 2, '1\u2009234\u2009567.89'],
  ])('prints %d with %d decimals', (value, decimals, text) => {
    expect(number(value, decimals)).toBe(text);
  });
});

describe('number in other languages', () => {
  /** ISO 80000-1:2022, 7.3.2 allows both marks; the comma is the custom in German, Spanish and Polish. */
  it.each(['de', 'es', 'pl'] as const)('has a decimal comma in %s', (locale) => {
    overwriteGetLocale(() => locale);
    expect(number(9.4, 1)).toBe('9,4');
    expect(number(12000)).toBe('12\u2009000');
    expect(plainNumber(0.624)).toBe('0,624');
    overwriteGetLocale(() => 'en');
  });
});

describe('plainNumber', () => {
  it.each([
    [9.6, '9.6'],
    [520, '520'],
    [0.624, '0.624'],
    [100, '100'],
    [0.78, '0.78'],
  ])('prints %d as %s', (value, text) => {
    expect(plainNumber(value)).toBe(text);
  });
});

describe('share', () => {
  /** 9.4 h of 37.5 h, worked by hand: 0.25067. */
  it('prints percent with one decimal and a dash for no denominator', () => {
    expect(share(9.4 / 37.5)).toBe('25.1 %');
    expect(share(null)).toBe('–');
  });
});
