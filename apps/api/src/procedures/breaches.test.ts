import type { WpsRanges } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { breachesOf } from './breaches.js';

const record: WpsRanges = {
  process: '135',
  mechanisations: ['partlyMechanised', 'fullyMechanised'],
  materialGroups: ['1'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  fillers: ['G3Si1'],
  gases: ['M21'],
  thicknessMm: { min: 3, max: 12 },
  throatMm: { min: 3, max: 6 },
  wireDiameterMm: { min: 1.2, max: 1.2 },
  currentA: { min: 180, max: 240 },
  voltageV: null,
  wireSpeedMMin: null,
  travelMmMin: { min: 300, max: 500 },
  heatInputKjMm: { min: 0.5, max: 1.1 },
  heatInputBasis: 'heatInput',
  preheatMinC: 80,
  interpassMaxC: 250,
};
const code = 'ISO 15614-1';
const records = [{ number: 'PQ-1', code, edition: '2017', ranges: record }];
const variables = (wps: Partial<WpsRanges>, on = records) =>
  breachesOf({ code, ranges: { ...record, ...wps } }, on).map(({ variable }) => variable);

// Which rule holds a procedure to its records is the shop's own; limits are inclusive.
describe('breaches of a procedure', () => {
  it('finds none where the procedure equals its record', () => {
    expect(variables({})).toEqual([]);
  });

  it.each<[string, Partial<WpsRanges>]>([
    ['process', { process: '141' }],
    ['mechanisation', { mechanisations: ['manual'] }],
    ['material groups', { materialGroups: ['1.2', '8.1'] }],
    ['joint types', { jointTypes: ['fillet', 'butt'] }],
    ['positions', { positions: ['PA', 'PF'] }],
    ['fillers', { fillers: ['G4Si1'] }],
    ['gases', { gases: ['M21', 'C1'] }],
    ['thickness', { thicknessMm: { min: 2.9, max: 12 } }],
    ['throat', { throatMm: { min: 3, max: null } }],
    ['wire diameter', { wireDiameterMm: { min: 1, max: 1.2 } }],
    ['current', { currentA: { min: 180, max: 240.1 } }],
    ['travel speed', { travelMmMin: { min: null, max: 500 } }],
    ['heat input', { heatInputKjMm: { min: 0.4, max: 1 } }],
    ['heat counted as', { heatInputBasis: 'arcEnergy' }],
    ['preheat', { preheatMinC: 79 }],
    ['preheat', { preheatMinC: null }],
    ['interpass temperature', { interpassMaxC: 251 }],
    ['interpass temperature', { interpassMaxC: null }],
  ])('names %s', (variable, wps) => {
    expect(variables(wps)).toEqual([variable]);
  });

  it('names the record and both ranges', () => {
    const ranges = { ...record, thicknessMm: { min: 3, max: 15 } };
    expect(breachesOf({ code, ranges }, records)).toEqual([
      { variable: 'thickness', wpqrNumber: 'PQ-1', wps: '3 to 15 mm', allowed: '3 to 12 mm' },
    ]);
  });

  it('takes a sub-group as held by its group', () => {
    expect(variables({ materialGroups: ['1.1', '1.2'] })).toEqual([]);
    expect(variables({ materialGroups: ['11'] })).toEqual(['material groups']);
  });

  it('takes a range on which the record says nothing as no breach', () => {
    expect(variables({ voltageV: { min: 20, max: 30 } })).toEqual([]);
  });

  it('asks for what no procedure can do without, on both sides', () => {
    expect(variables({ thicknessMm: null })).toEqual(['thickness']);
    expect(variables({ positions: [] })).toEqual(['positions']);
    const silent = [
      {
        number: 'PQ-1',
        code,
        edition: '2017',
        ranges: { ...record, thicknessMm: null, positions: [] },
      },
    ];
    expect(variables({}, silent)).toEqual(['positions', 'thickness']);
    expect(variables({ throatMm: null })).toEqual(['throat']);
    expect(variables({ jointTypes: [], throatMm: null })).toEqual([]);
  });

  it('lets another record hold the procedure, but never half of it', () => {
    const thick = {
      ...{ number: 'PQ-2', code, edition: '2017' },
      ranges: { ...record, thicknessMm: { min: 12, max: 24 }, positions: ['PF'] },
    };
    const both = [...records, thick];
    const own = { thicknessMm: { min: 14, max: 20 }, positions: ['PF'] };
    expect(variables(own, both)).toEqual([]);
    // Thick plate was welded in PF alone: the positions of the thin test say nothing about it.
    expect(variables({ ...own, positions: ['PA', 'PB'] }, both)).toEqual(['thickness']);
    const ranges = { ...record, thicknessMm: { min: 3, max: 24 } };
    expect(breachesOf({ code, ranges }, both)).toEqual([
      {
        variable: 'thickness',
        wpqrNumber: 'PQ-1, PQ-2',
        wps: '3 to 24 mm',
        allowed: 'PQ-1: 3 to 12 mm; PQ-2: 12 to 24 mm',
      },
    ]);
  });

  it('does not count a record of another process', () => {
    const other = {
      number: 'PQ-3',
      code,
      edition: '2017',
      ranges: { ...record, process: '141', positions: ['PF'] },
    };
    expect(variables({ positions: ['PF'] }, [...records, other])).toEqual(['positions']);
  });

  // Codes are never mixed: a record to another code supports nothing here.
  it('does not count a record of another code', () => {
    const asme = [{ number: 'PQ-4', code: 'ASME IX', edition: '2021', ranges: record }];
    expect(breachesOf({ code, ranges: record }, asme)).toEqual([
      { variable: 'code', wpqrNumber: 'PQ-4', wps: 'ISO 15614-1', allowed: 'ASME IX' },
    ]);
    expect(variables({}, [...asme, ...records])).toEqual([]);
  });

  it('says nothing where no record is named yet', () => {
    expect(variables({}, [])).toEqual([]);
  });
});
