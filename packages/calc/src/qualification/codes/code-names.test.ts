import { describe, expect, it } from 'vitest';
import { codeIdOf, editionYear, familyNamed, familyOf } from './code-names.js';

describe('independent: the names of codes, against how certificates write them', () => {
  it.each([
    ['EN ISO 15614-1:2017+A1:2019', 'ISO 15614-1', 'ISO'],
    ['ISO15614-2', 'ISO 15614-2', 'ISO'],
    ['DIN EN ISO 9606-1', 'ISO 9606-1', 'ISO'],
    ['BS EN ISO 9606-2:2004', 'ISO 9606-2', 'ISO'],
    ['ISO 14732', 'ISO 14732', 'ISO'],
    ['ASME BPVC.IX', 'ASME IX', 'ASME IX'],
    ['ASME Section IX', 'ASME IX', 'ASME IX'],
    ['AWS D1.1/D1.1M:2020', 'AWS D1.1', 'AWS D1.1'],
  ])('%s', (text, code, family) => {
    const found = codeIdOf(text);
    expect(found).toBe(code);
    expect(found === null ? null : familyOf(found)).toBe(family);
    expect(familyNamed(text)).toBe(family);
  });
  it('are not mistaken for one another', () => {
    const others = [
      'ISO 15614-11',
      'ISO 9606-14',
      'EN 287-1',
      'AWS D1.2',
      'AWS D1.10',
      'ASME VIII',
      '',
    ];
    expect(others.map(codeIdOf)).toEqual(others.map(() => null));
    expect(codeIdOf(null)).toBe(null);
  });
  it('of product standards name a family too', () => {
    expect(['EN 1090-2', 'ISO 3834-2', 'EN 13445'].map(familyNamed)).toEqual(['ISO', 'ISO', 'ISO']);
    expect(['the drawing', 'API 1104', null].map(familyNamed)).toEqual([null, null, null]);
  });
});

it('printed: EN ISO 9606-1:2017 is the text of 2012 with its corrections (NBN preview page, high)', () => {
  expect(editionYear('ISO 9606-1', '2017')).toBe('2012');
  expect(editionYear('ISO 9606-1', '2012/Cor 2:2013')).toBe('2012');
  expect(editionYear('ISO 15614-1', '2017+A1:2019')).toBe('2017');
  expect(editionYear('ISO 15614-1', 'current')).toBe(null);
  expect(editionYear('ISO 15614-1', null)).toBe(null);
});
