import { describe, expect, it } from 'vitest';
import { testedValuesOutside } from './tested-values.js';

type Typed = Parameters<typeof testedValuesOutside>[0];

const record: Typed = {
  process: '135',
  mechanisation: 'partlyMechanised',
  testPiece: {
    jointType: 'fillet',
    thicknessMm: 6,
    diameterMm: null,
    material: 'S235JR',
    materialGroup: '1.1',
    yieldMPa: 235,
    throatMm: 4,
    position: 'PB',
    runs: 'single',
    sides: 'one',
    backing: '',
  },
  testedValues: {
    currentA: 220,
    voltageV: 26,
    wireSpeedMMin: 8,
    travelMmMin: 400,
    heatInputKjMm: 0.686,
    preheatC: 20,
    interpassC: 120,
  },
  ranges: {
    process: '135',
    mechanisations: ['partlyMechanised'],
    materialGroups: ['1'],
    jointTypes: ['fillet'],
    positions: ['PA', 'PB'],
    fillers: ['G3Si1'],
    gases: ['M21'],
    thicknessMm: { min: 3, max: 12 },
    throatMm: { min: 3, max: 6 },
    wireDiameterMm: null,
    currentA: { min: 180, max: 220 },
    voltageV: null,
    wireSpeedMMin: null,
    travelMmMin: null,
    heatInputKjMm: null,
    heatInputBasis: 'heatInput',
    preheatMinC: 5,
    interpassMaxC: 250,
  },
};

describe('tested values against the printed range of the same record', () => {
  it('accepts values inside, the limit included, and values without a printed range', () => {
    expect(testedValuesOutside(record)).toEqual([]);
  });

  it('names field, value and printed range', () => {
    const testedValues = { ...record.testedValues, currentA: 260 };
    expect(testedValuesOutside({ ...record, testedValues })).toEqual([
      {
        field: 'body.testedValues.currentA',
        given: '260',
        allowed: 'the printed range of current: 180 to 220 A',
      },
    ]);
  });

  it('reads pairs of groups as they are printed', () => {
    const piece = { ...record.testPiece, materialGroup: '8.1' };
    const ranges = { ...record.ranges, materialGroups: ['8-1'] };
    const mixed = { ...record, ranges, testPiece: { ...piece, materialGroupB: '1.2' } };
    expect(testedValuesOutside(mixed)).toEqual([]);
    expect(testedValuesOutside({ ...record, ranges, testPiece: piece })).toEqual([
      {
        field: 'body.testPiece.materialGroup',
        given: '8.1 joined to 8.1',
        allowed: 'the printed material groups: 8-1',
      },
    ]);
  });

  it('says temperatures as people write them', () => {
    const testedValues = { ...record.testedValues, preheatC: 4 };
    expect(testedValuesOutside({ ...record, testedValues })[0]?.allowed).toBe(
      'the printed range of preheat: 5 °C and more',
    );
  });

  it('holds the wire of the test against the printed diameters', () => {
    const ranges = { ...record.ranges, wireDiameterMm: { min: 1, max: 1 } };
    const testedValues = { ...record.testedValues, wireDiameterMm: 1.2 };
    expect(testedValuesOutside({ ...record, ranges, testedValues })).toMatchObject([
      { field: 'body.testedValues.wireDiameterMm', given: '1.2' },
    ]);
  });

  it.each<[string, Typed]>([
    ['body.process', { ...record, process: '141' }],
    ['body.mechanisation', { ...record, mechanisation: 'manual' }],
    ['body.testPiece.position', { ...record, testPiece: { ...record.testPiece, position: 'PF' } }],
    [
      'body.testPiece.materialGroup',
      { ...record, testPiece: { ...record.testPiece, materialGroup: '8.1' } },
    ],
    [
      'body.testPiece.thicknessMm',
      { ...record, testPiece: { ...record.testPiece, thicknessMm: 2 } },
    ],
    ['body.testPiece.throatMm', { ...record, testPiece: { ...record.testPiece, throatMm: 7 } }],
    [
      'body.testedValues.preheatC',
      { ...record, testedValues: { ...record.testedValues, preheatC: 4 } },
    ],
    [
      'body.testedValues.interpassC',
      { ...record, testedValues: { ...record.testedValues, interpassC: 251 } },
    ],
  ])('finds %s', (field, typed) => {
    expect(testedValuesOutside(typed).map((each) => each.field)).toEqual([field]);
  });
});
