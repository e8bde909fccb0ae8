import { describe, expect, it } from 'vitest';
import { readNumber } from './number-text.js';

/** What a person at a German or English keyboard types; expectations are common practice. */
describe('readNumber', () => {
  it.each([
    ['9.6', 9.6],
    ['9,6', 9.6],
    [' 520 ', 520],
    ['0,52', 0.52],
    [',5', 0.5],
    ['12,', 12],
    ['-3', -3],
    ['\u22123', -3],
    ['12 000', 12000],
    ['12\u202f000,5', 12000.5],
  ])('reads %j as %d', (typed, value) => {
    expect(readNumber(typed)).toEqual({ kind: 'number', value });
  });
  it.each([
    '1,200.5',
    '1.200,5',
    '1.200.5',
    'x',
    '12 mm',
    '1 2',
    '--3',
    '.',
    '1e3',
    'NaN',
    'Infinity',
  ])('refuses %j', (typed) => {
    expect(readNumber(typed)).toEqual({ kind: 'refused' });
  });
  it('tells an empty field from a zero', () => {
    expect(readNumber('  ')).toEqual({ kind: 'empty' });
    expect(readNumber('0')).toEqual({ kind: 'number', value: 0 });
  });
});
