import { expect, it } from 'vitest';
import type { WpsRanges } from '../fit.js';
import { wpsBreaches, type SupportingWpqr } from './wps-breaches.js';

/** Invented record; the procedure equals it. */
const ranges: WpsRanges = {
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
const record: SupportingWpqr = { number: 'PQ-1', code: 'ISO 15614-1', edition: '2017', ranges };
const breaches = (
  wps: Partial<WpsRanges>,
  wpqrs: readonly SupportingWpqr[] = [record],
  code = 'EN ISO 15614-1:2017',
) => wpsBreaches({ code, wps: { ...ranges, ...wps }, wpqrs });
const named = (...given: Parameters<typeof breaches>) =>
  breaches(...given).map(({ variable, kind }) => `${variable} ${kind}`);

// Which rule holds a procedure to its records is the shop's own; limits are inclusive.
it('finds none where the procedure equals its record', () => {
  expect(breaches({})).toEqual([]);
});

it.each<[string, Partial<WpsRanges>]>([
  ['process beyond', { process: '141' }],
  ['mechanisations beyond', { mechanisations: ['manual'] }],
  ['materialGroups beyond', { materialGroups: ['1.2', '8.1'] }],
  ['jointTypes beyond', { jointTypes: ['fillet', 'butt'] }],
  ['positions beyond', { positions: ['PA', 'PF'] }],
  ['fillers beyond', { fillers: ['G4Si1'] }],
  ['gases beyond', { gases: ['M21', 'C1'] }],
  ['thicknessMm beyond', { thicknessMm: { min: 2.9, max: 12 } }],
  ['throatMm beyond', { throatMm: { min: 3, max: null } }],
  ['wireDiameterMm beyond', { wireDiameterMm: { min: 1, max: 1.2 } }],
  ['currentA beyond', { currentA: { min: 180, max: 240.1 } }],
  ['travelMmMin beyond', { travelMmMin: { min: null, max: 500 } }],
  ['heatInputKjMm beyond', { heatInputKjMm: { min: 0.4, max: 1 } }],
  ['heatInputBasis beyond', { heatInputBasis: 'arcEnergy' }],
  ['preheatMinC beyond', { preheatMinC: 79 }],
  ['preheatMinC beyond', { preheatMinC: null }],
  ['interpassMaxC beyond', { interpassMaxC: 251 }],
  ['interpassMaxC beyond', { interpassMaxC: null }],
  ['thicknessMm silent', { thicknessMm: null }],
  ['positions silent', { positions: [] }],
  ['throatMm silent', { throatMm: null }],
])('independent: names %s', (breach, wps) => {
  expect(named(wps)).toEqual([breach]);
});

it('shows what the procedure states and what each record allows', () => {
  const thick = {
    ...record,
    number: 'PQ-2',
    ranges: { ...ranges, thicknessMm: { min: 12, max: 24 } },
  };
  expect(breaches({ thicknessMm: { min: 3, max: 24 } }, [record, thick])).toEqual([
    {
      variable: 'thicknessMm',
      kind: 'beyond',
      wps: { min: 3, max: 24 },
      allowed: [
        { wpqr: 'PQ-1', stated: { min: 3, max: 12 } },
        { wpqr: 'PQ-2', stated: { min: 12, max: 24 } },
      ],
    },
  ]);
  expect(named({ thicknessMm: { min: 14, max: 20 } }, [record, thick])).toEqual([]);
});

it('counts only records of the same code family', () => {
  expect(named({}, [{ ...record, code: 'AWS D1.1', edition: '2020' }])).toEqual(['code beyond']);
  expect(named({}, [{ ...record, code: 'no code' }])).toEqual(['code beyond']);
  expect(named({}, [record], 'ASME IX')).toEqual(['code beyond']);
  expect(named({}, [])).toEqual(['code silent']);
});

it('takes what a record leaves open as no breach, and a sub-group as held by its group', () => {
  expect(named({ voltageV: { min: 20, max: 30 } })).toEqual([]);
  expect(named({ materialGroups: ['1.1', '1.2'] })).toEqual([]);
  expect(named({ materialGroups: ['11'] })).toEqual(['materialGroups beyond']);
});

it('printed: holds pairs of groups by the pairs of the record, ISO 15614-1 Table 5', () => {
  const of = (wps: string[], ...allowed: string[]) =>
    named({ materialGroups: wps }, [{ ...record, ranges: { ...ranges, materialGroups: allowed } }]);
  expect(of(['8.1-1.2'], '8-1')).toEqual([]);
  expect(of(['2-1'], '2-2', '2-1', '1-1')).toEqual([]);
  expect(of(['1', '2'], '2-2', '2-1', '1-1')).toEqual([]);
  expect(of(['1', '2'], '2-1', '1-1')).toEqual(['materialGroups beyond']);
  expect(of(['8.1'], '8-1')).toEqual(['materialGroups beyond']);
  expect(of(['1.2', '8.1'], '8-1')).toEqual(['materialGroups beyond']);
  expect(of(['8.1'], '8', '1')).toEqual(['materialGroups silent']);
});

it('printed: ends at the yield at which the record ends, ISO 15614-1 8.3.1', () => {
  const of = (max: number | null, most: number | null) =>
    named({ yieldMPa: max === null ? null : { min: null, max } }, [
      {
        ...record,
        ranges: { ...ranges, yieldMPa: most === null ? null : { min: null, max: most } },
      },
    ]);
  expect(of(355, 355)).toEqual([]);
  expect(of(460, 355)).toEqual(['yieldMPa beyond']);
  expect(of(null, 355)).toEqual(['yieldMPa beyond']);
  expect(of(355, null)).toEqual([]);
});

it('compares no limit of arc energy with one of heat input, however far apart they are', () => {
  const far = { heatInputKjMm: { min: 2, max: 3 } };
  expect(named(far)).toEqual(['heatInputKjMm beyond']);
  expect(named({ ...far, heatInputBasis: 'arcEnergy' })).toEqual(['heatInputBasis beyond']);
  expect(named({ heatInputKjMm: null, heatInputBasis: 'arcEnergy' })).toEqual([]);
});

it('compares with what each record of the process says, and tells what it stated', () => {
  const other = { ...record, number: 'PQ-2', ranges: { ...ranges, process: '141' } };
  expect(breaches({ process: '121' }, [record, other])).toEqual([
    {
      ...{ variable: 'process', kind: 'beyond', wps: '121' },
      allowed: [
        { wpqr: 'PQ-1', stated: '135' },
        { wpqr: 'PQ-2', stated: '141' },
      ],
    },
  ]);
  expect(breaches({}, [{ ...record, code: 'ASME IX' }])).toEqual([
    {
      ...{ variable: 'code', kind: 'beyond', wps: 'EN ISO 15614-1:2017' },
      allowed: [{ wpqr: 'PQ-1', stated: 'ASME IX' }],
    },
  ]);
  expect(named({}, [])).toEqual(['code silent']);
});

it('independent: does not mix what two records hold, by hand: 8 to 1 was tested up to 8 mm, 1 to 1 up to 12 mm', () => {
  const stainless = {
    ...record,
    number: 'PQ-2',
    ranges: { ...ranges, materialGroups: ['8-1'], thicknessMm: { min: 4, max: 8 } },
  };
  const of = (wps: Partial<WpsRanges>) => breaches(wps, [record, stainless]);
  expect(of({ materialGroups: ['8-1'], thicknessMm: { min: 4, max: 8 } })).toEqual([]);
  expect(of({ materialGroups: ['1'], thicknessMm: { min: 3, max: 12 } })).toEqual([]);
  expect(of({ materialGroups: ['8-1'], thicknessMm: { min: 3, max: 12 } })).toEqual([
    {
      ...{ variable: 'materialGroups', kind: 'beyond', wps: ['8-1'] },
      allowed: [{ wpqr: 'PQ-1', stated: ['1'] }],
    },
  ]);
  // The throat of a fillet may rest on a fillet test beside the butt test that holds all else.
  const butt = {
    ...record,
    ranges: { ...ranges, jointTypes: ['butt', 'fillet'], throatMm: null },
  };
  const ofFillet = {
    ...stainless,
    ranges: { ...ranges, thicknessMm: { min: 5, max: 8 } },
  };
  expect(breaches({ jointTypes: ['butt', 'fillet'] }, [butt, ofFillet])).toEqual([]);
});

it('is silent, not held, where a variable that no procedure can do without is not stated', () => {
  for (const variable of ['mechanisations', 'materialGroups', 'positions'] as const) {
    expect(named({ [variable]: [] })).toEqual([`${variable} silent`]);
    const blank = { ...record, ranges: { ...ranges, [variable]: [] } };
    expect(named({}, [blank])).toEqual([`${variable} silent`]);
  }
  expect(named({ fillers: [], gases: [] })).toEqual([]);
  expect(named({ thicknessMm: null })).toEqual(['thicknessMm silent']);
  expect(named({ preheatMinC: 79 })).toEqual(['preheatMinC beyond']);
  expect(named({ preheatMinC: null })).toEqual(['preheatMinC beyond']);
  expect(named({ interpassMaxC: 251 })).toEqual(['interpassMaxC beyond']);
});

it.each<[Partial<WpsRanges>, Partial<WpsRanges>, string[]]>([
  [{ materialGroups: ['1.2'] }, { materialGroups: ['1', '2'] }, []],
  [{ positions: [' pa', 'PB '] }, {}, []],
  [{ process: ' 135 ' }, {}, []],
  [{ thicknessMm: { min: 1, max: 12 } }, { thicknessMm: { min: null, max: 12 } }, []],
  [{ thicknessMm: { min: null, max: 12 } }, { thicknessMm: { min: null, max: 12 } }, []],
  [{ thicknessMm: { min: 3, max: 100 } }, { thicknessMm: { min: 3, max: null } }, []],
  [{ thicknessMm: { min: null, max: 12 } }, {}, ['thicknessMm beyond']],
  [{ thicknessMm: { min: 3, max: null } }, {}, ['thicknessMm beyond']],
  [{ thicknessMm: { min: 3, max: 12.1 } }, {}, ['thicknessMm beyond']],
  [{}, { thicknessMm: { min: null, max: null } }, ['thicknessMm silent']],
  [{ jointTypes: ['butt'], throatMm: null }, { jointTypes: ['butt'], throatMm: null }, []],
  [{ throatMm: null }, { throatMm: null }, ['throatMm silent']],
  [{ jointTypes: ['butt'] }, { jointTypes: ['butt'], throatMm: null }, ['throatMm silent']],
  [{ preheatMinC: null }, { preheatMinC: null }, []],
  [{ preheatMinC: 81 }, {}, []],
  [{ interpassMaxC: null }, { interpassMaxC: null }, []],
  [{ interpassMaxC: 249 }, {}, []],
  [{ heatInputBasis: 'arcEnergy' }, { heatInputKjMm: null }, []],
])('independent: %o under a record of %o: %o', (wps, stated, found) => {
  expect(named(wps, [{ ...record, ranges: { ...ranges, ...stated } }])).toEqual(found);
});

it.each<[keyof WpsRanges, Partial<WpsRanges>]>([
  ['positions', { positions: ['PF'] }],
  ['mechanisations', { mechanisations: ['manual'] }],
  ['throatMm', { throatMm: { min: 1, max: 6 } }],
  ['heatInputKjMm', { heatInputKjMm: { min: 0.1, max: 1 } }],
  ['heatInputBasis', { heatInputBasis: 'arcEnergy' }],
  ['preheatMinC', { preheatMinC: 10 }],
  ['interpassMaxC', { interpassMaxC: 300 }],
])('shows what both sides state of %s', (variable, wps) => {
  expect(breaches(wps)).toEqual([
    {
      ...{ variable, kind: 'beyond', wps: wps[variable] },
      allowed: [{ wpqr: 'PQ-1', stated: ranges[variable] }],
    },
  ]);
});
