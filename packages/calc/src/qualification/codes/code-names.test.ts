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
    ['en iso 15614-2:2005', 'ISO 15614-2', 'ISO'],
    ['ISO15614-1', 'ISO 15614-1', 'ISO'],
    ['ISO EN 9606-1', 'ISO 9606-1', 'ISO'],
    ['iso_14732', 'ISO 14732', 'ISO'],
    ['ASME SEC IX', 'ASME IX', 'ASME IX'],
    ['asme ix:2021', 'ASME IX', 'ASME IX'],
    ['AWS D1.1', 'AWS D1.1', 'AWS D1.1'],
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
      'ISO 9606-21',
      'ISO 15614-22',
      'ISO 147321',
      'MISO 9606-1',
      'AWS D1.11',
      'ASME IXA',
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
    const others = ['the drawing', 'API 1104', 'as EN 1090-2', '1090', 'ENX', '3834-x', ''];
    expect([...others, null].map(familyNamed)).toEqual(Array(8).fill(null));
    const products = ['EN', 'iso', 'EN ISO', 'ISO EN', '1090-2', 'EN ISO 3834-2', '3834-3'];
    const vessels = ['ISO 3834-2', 'ISO EN 1090-2', 'EN 13445-3'];
    expect([...products, ...vessels].map(familyNamed)).toEqual(Array(10).fill('ISO'));
  });
  it('are the same however often they are asked for, and however many others there were', () => {
    expect(codeIdOf('ASME IX')).toBe('ASME IX');
    for (let at = 0; at < 1200; at += 1) expect(codeIdOf(`code ${at}`)).toBe(null);
    expect([codeIdOf('ASME IX'), codeIdOf('AWS D1.1')]).toEqual(['ASME IX', 'AWS D1.1']);
    expect([familyNamed('AWS D1.1'), familyNamed('AWS D1.1')]).toEqual(['AWS D1.1', 'AWS D1.1']);
  });
});

it('printed: EN ISO 9606-1:2017 is the text of 2012 with its corrections (NBN preview page, high)', () => {
  expect(editionYear('ISO 9606-1', '2017')).toBe('2012');
  expect(editionYear('ISO 9606-1', '2012/Cor 2:2013')).toBe('2012');
  expect(editionYear('ISO 15614-1', '2017+A1:2019')).toBe('2017');
  expect(editionYear('ISO 15614-1', 'current')).toBe(null);
  expect(editionYear('ISO 15614-1', null)).toBe(null);
});
