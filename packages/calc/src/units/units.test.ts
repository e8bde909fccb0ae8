import fc from 'fast-check';
import { evaluate, isUnit, unit as measured } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { weldDeposit } from '../geometry/deposit.js';
import { arcEnergy, arcEnergyFromEnergy } from '../process/arc-energy.js';
import { throatFromSettings } from '../process/bead.js';
import { electricityDrawn, electricityPerKg } from '../process/electricity.js';
import { gasPerMetre, weldGas } from '../process/gas.js';
import { depositionRate, wireMassPerMetre } from '../process/wire.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { convertUnit } from './convert.js';
import { entryKinds, entryText, readEntry } from './entry.js';
import { readDecimal } from './number-text.js';
import { converted, units, unitsLike, type UnitName } from './units.js';

const names = Object.keys(units) as UnitName[];
const pairs = names.flatMap((from) => unitsLike(from).map((to) => [from, to] as const));

/** Our names as the units library writes them; the second route knows nothing of our factors. */
const libraryNames: Partial<Record<UnitName, string>> = {
  'mm/min': 'mm/minute',
  'cm/min': 'cm/minute',
  'm/min': 'm/minute',
  'in/min': 'in/minute',
  'kg/h': 'kg/hour',
  'lb/h': 'lbm/hour',
  lb: 'lbm',
  'lb/ft': 'lbm/ft',
  'l/min': 'l/minute',
  cfh: 'ft^3/hour',
  m3: 'm^3',
  ft3: 'ft^3',
  C: 'degC',
  F: 'degF',
};
const inLibrary = (name: UnitName) => libraryNames[name] ?? name;

describe('conversion', () => {
  it.each(pairs)('independent: %s to %s as the units library has it', (from, to) => {
    const ours = valueOf(convertUnit({ value: 37.5, from, to }));
    const library = measured(37.5, inLibrary(from)).toNumber(inLibrary(to));
    expect(Math.abs(ours - library)).toBeLessThanOrEqual(1e-9 * Math.abs(library));
  });

  it.each<[number, UnitName, number, UnitName]>([
    [1, 'in', 25.4, 'mm'],
    [1, 'lb', 0.45359237, 'kg'],
    [212, 'F', 100, 'C'],
    [-40, 'F', -40, 'C'],
    [20.472440944881889, 'in/min', 520, 'mm/min'],
    [52, 'cm/min', 520, 'mm/min'],
    [1, 'kJ/mm', 25.4, 'kJ/in'],
    [1, 'kJ/mm', 10, 'kJ/cm'],
    [32.5, 'kJ/in', 1.279527559055118, 'kJ/mm'],
    [1, 'cfh', 0.4719474432, 'l/min'],
  ])('independent: %f %s are %f %s by definition', (value, from, expected, to) => {
    expect(valueOf(convertUnit({ value, from, to }))).toBeCloseTo(expected, 10);
  });

  it('comes back to where it started, through any unit of the dimension', () => {
    const value = fc.double({ min: -200, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...pairs), value, ([from, to], given) => {
        const there = valueOf(convertUnit({ value: given, from, to }));
        const back = valueOf(convertUnit({ value: there, from: to, to: from }));
        expect(Math.abs(back - given)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(given)));
      }),
    );
  });

  it('names its sources, and the units that a value can be had in', () => {
    expect(convertUnit({ value: 1, from: 'bar', to: 'psi' })).toMatchObject({
      sources: ['exactUnits'],
    });
    expect(convertUnit({ value: 1, from: 'bar', to: 'kg' })).toEqual({
      ok: false,
      refusal: { argument: 'to', given: 'kg', allowed: 'one of bar, MPa, psi' },
    });
    const odd = convertUnit({ value: 1, from: 'furlong' as 'mm', to: 'mm' });
    expect(odd.ok ? '' : odd.refusal.allowed).toBe(`one of ${names.join(', ')}`);
    const none = convertUnit({ value: 1, from: ['mm'] as unknown as 'mm', to: 'mm' });
    expect(none).toMatchObject({ refusal: { argument: 'from' } });
  });

  it.each<[what: string, inputs: object, argument: string]>([
    ['a unit that there is not', { value: 1, from: 'furlong', to: 'mm' }, 'from'],
    ['another dimension', { value: 1, from: 'kJ/mm', to: 'kg' }, 'to'],
    ['what is no number', { value: NaN, from: 'mm', to: 'in' }, 'value'],
    ['text', { value: '12', from: 'mm', to: 'in' }, 'value'],
    ['colder than absolute zero', { value: -500, from: 'F', to: 'C' }, 'value'],
  ])('refuses %s', (_what, inputs, argument) => {
    expect(convertUnit(inputs as Parameters<typeof convertUnit>[0])).toMatchObject({
      ok: false,
      refusal: { argument },
    });
  });
});

/** Each text is the number that a reader of either country takes it for, or none where the two would differ. */
it.each<[text: string, expected: number | null]>([
  ['52', 52],
  [' 0,5 ', 0.5],
  ['.5', 0.5],
  ['5.', 5],
  ['+7', 7],
  ['\u221212.5', -12.5],
  ['-12,5', -12.5],
  ['12 000', 12_000],
  ['1\u202f234\u00a0567,5', 1_234_567.5],
  ['.25', 0.25],
  ['1\u22122', null],
  ['\u2212\u22121', null],
  ['12 00', null],
  ['1 2000', null],
  ['1,200.5', null],
  ['1.200,5', null],
  ['1e3', null],
  ['.', null],
  ['-', null],
  ['', null],
  ['12x', null],
])('independent: "%s" is typed for %s', (text, expected) => {
  expect(readDecimal(text)).toBe(expected);
});

describe('entry', () => {
  it.each([
    ['52', 'cm/min', 520, 'in/min', 20.4724],
    ['20,5 in/min', 'cm/min', 520.7, 'cm/min', 52.07],
    ['20.5 IPM', 'mm/min', 520.7, 'cm/min', 52.07],
    ['1 200', 'mm/min', 1200, 'in/min', 47.2441],
  ] as const)(
    'independent: %s in a travel field of %s is the number x the mm of its unit',
    (text, unit, stored, echoUnit, echoValue) => {
      const read = readEntry({ text, kind: 'travel', unit });
      expect(valueOf(read)).toBeCloseTo(stored, 9);
      expect(partsOf(read).echoUnit).toBe(echoUnit);
      expect(partsOf(read).echoValue).toBeCloseTo(echoValue, 4);
    },
  );

  it('independent: 375 in/min x 25.4 mm is stored as 9.525 m/min, 250 F as (250 - 32) / 1.8, each echoed', () => {
    const read = readEntry({ text: '375', kind: 'wireSpeed', unit: 'in/min' });
    expect(valueOf(read)).toBeCloseTo(9.525, 10);
    expect(partsOf(read)).toMatchObject({ echoUnit: 'm/min', typedValue: 375 });
    expect(valueOf(readEntry({ text: '250 °F', kind: 'temperature', unit: 'C' }))).toBeCloseTo(
      121.111,
      3,
    );
  });

  it.each([
    ['', 'text'],
    ['fast', 'text'],
    ['1,200.5', 'text'],
    ['12 kg', 'text'],
    ['12 mm/min/min', 'text'],
  ])('refuses "%s" and lists the units of the field', (text, argument) => {
    const read = readEntry({ text, kind: 'travel', unit: 'mm/min' });
    expect(read).toMatchObject({ ok: false, refusal: { argument, given: text } });
    expect(read.ok ? '' : read.refusal.allowed).toContain('in/min');
  });

  it('refuses a field of another dimension and a kind that there is not', () => {
    expect(readEntry({ text: '1', kind: 'travel', unit: 'kg' })).toMatchObject({
      refusal: { argument: 'unit', given: 'kg' },
    });
    const odd = { text: '1', kind: 'colour' as 'travel', unit: 'kg' as const };
    expect(readEntry(odd)).toMatchObject({ refusal: { argument: 'kind' } });
  });

  it.each([
    ['12"', 'length', 'mm', 304.8],
    ['2 lbs', 'mass', 'kg', 0.90718474],
    ['35 ft3/h', 'gasFlow', 'l/min', 16.518],
    ['100 °C', 'temperature', 'F', 100],
    ['  6  ', 'length', 'mm', 6],
    ['6 MM', 'length', 'in', 6],
    ['+6', 'length', 'mm', 6],
    ['\u22126', 'temperature', 'C', -6],
    ['6.', 'length', 'mm', 6],
  ] as const)(
    'independent, by the definitions of the units: "%s" in a %s field of %s is %f as stored',
    (text, kind, unit, stored) => {
      const read = readEntry({ text, kind, unit });
      expect(valueOf(read)).toBeCloseTo(stored, 3);
      expect(read).toMatchObject({ sources: ['exactUnits'] });
    },
  );

  it.each(['x6', '6 "kg', '(6)', '6;', '6 mm mm', 'a 6 mm', '6 mm\n7'])(
    'refuses "%s", of which a part would be a number',
    (text) => {
      expect(readEntry({ text, kind: 'length', unit: 'mm' })).toMatchObject({
        refusal: { argument: 'text', given: text },
      });
    },
  );

  it('says in full what a field takes', () => {
    const allowed = (inputs: object) => {
      const fields = { text: 'x', kind: 'pressure', unit: 'bar', ...inputs };
      const read = readEntry(fields as Parameters<typeof readEntry>[0]);
      return read.ok ? null : read.refusal.allowed;
    };
    expect(allowed({})).toBe('a number, alone or with one of bar, MPa, psi');
    expect(allowed({ unit: 'kg' })).toBe('one of bar, MPa, psi');
    expect(allowed({ kind: 'colour' })).toBe(
      'one of length, travel, wireSpeed, mass, deposition, gasFlow, heatInput, temperature, pressure',
    );
    expect(allowed({ text: '1 °c' })).toBe('a number, alone or with one of bar, MPa, psi');
  });

  it('never gives what is not a number, whatever is typed', () => {
    const kind = fc.constantFrom(...(Object.keys(entryKinds) as (keyof typeof entryKinds)[]));
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.double().map(String)), kind, (text, field) => {
        const read = readEntry({ text, kind: field, unit: entryKinds[field].stored });
        expect(read.ok ? Number.isFinite(read.value) : true).toBe(true);
      }),
    );
    expect(readDecimal('1.2.3')).toBeNull();
  });
});

/** Typed, stored, shown: the way of every number through a field. */
describe('the text of a field', () => {
  const fields = (Object.keys(entryKinds) as (keyof typeof entryKinds)[]).flatMap((kind) =>
    unitsLike(entryKinds[kind].stored).map((unit) => ({ kind, unit })),
  );
  const typedNumber = fc
    .tuple(fc.integer({ min: 0, max: 999_999 }), fc.integer({ min: 0, max: 4 }))
    .map(([digits, decimals]) => digits / 10 ** decimals);

  it('independent: shows what was typed, in whatever unit of the field it was typed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...fields), typedNumber, ({ kind, unit }, typed) => {
        const value = valueOf(readEntry({ text: String(typed), kind, unit }));
        expect(entryText({ value, kind, unit })).toBe(String(typed));
      }),
      { numRuns: 2000 },
    );
  });

  it('independent: shows a value of the other system to six digits: 6 mm / 25.4 mm = 0.23622 in', () => {
    expect(entryText({ value: 6, kind: 'length', unit: 'in' })).toBe('0.23622');
    expect(entryText({ value: 520, kind: 'travel', unit: 'in/min' })).toBe('20.4724');
    expect(entryText({ value: 0, kind: 'length', unit: 'in' })).toBe('0');
    expect(entryText({ value: -5, kind: 'temperature', unit: 'F' })).toBe('23');
    expect(entryText({ value: 0.00001, kind: 'length', unit: 'mm' })).toBe('0.00001');
    expect(entryText({ value: 123456.789012, kind: 'length', unit: 'mm' })).toBe('123456.789012');
    expect(entryText({ value: 123456.7890123, kind: 'length', unit: 'mm' })).toBe('123457');
    expect(entryText({ value: 1200.5, kind: 'length', unit: 'mm' })).toBe('1200.5');
    expect(entryText({ value: 1000, kind: 'length', unit: 'mm' })).toBe('1000');
    expect(entryText({ value: 1 / 3, kind: 'length', unit: 'mm' })).toBe('0.333333');
    expect(entryText({ value: 0.1000004, kind: 'length', unit: 'in' })).toBe('0.00393702');
  });

  it('independent, by the definitions 1 in = 25.4 mm and 32 F = 0 degC: converts both ways', () => {
    expect(converted(25.4, 'mm', 'in')).toBe(1);
    expect(converted(1, 'in', 'mm')).toBe(25.4);
    expect(converted(32, 'F', 'C')).toBeCloseTo(0, 9);
    expect(converted(100, 'C', 'F')).toBeCloseTo(212, 9);
    expect(converted(7, 'mm', 'mm')).toBe(7);
  });

  it('reads back within half a unit of the sixth digit shown, whatever is stored', () => {
    const stored = fc.double({ min: 0.001, max: 100_000, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...fields), stored, ({ kind, unit }, value) => {
        const text = entryText({ value, kind, unit });
        const back = valueOf(readEntry({ text, kind, unit }));
        const shown = (stored: number) => converted(stored, entryKinds[kind].stored, unit);
        const halfSixthDigit = 5e-6 * Math.abs(shown(value));
        expect(Math.abs(shown(back) - shown(value))).toBeLessThanOrEqual(halfSixthDigit * 1.001);
      }),
    );
  });
});

const wire = { wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.95 };
const arc = { currentA: 250, voltageV: 27 };

/** The same formulas by a library that carries the units along and refuses to add volts to millimetres. */
describe('dimensions', () => {
  it.each<[what: string, ours: number, formula: string, unit: string]>([
    [
      'arc energy',
      valueOf(arcEnergy({ ...arc, travelMmMin: 450 })),
      ...(['27 V * 250 A / (450 mm/minute)', 'kJ/mm'] as const),
    ],
    [
      'arc energy from energy',
      valueOf(arcEnergyFromEnergy({ energyJ: 54_000, lengthMm: 60 })),
      ...(['54000 J / (60 mm)', 'kJ/mm'] as const),
    ],
    [
      'mass of wire',
      valueOf(wireMassPerMetre(wire)),
      ...(['pi/4 * (1.2 mm)^2 * 7850 kg/m^3', 'g/m'] as const),
    ],
    [
      'deposition',
      valueOf(depositionRate(wire)),
      ...(['pi/4 * (1.2 mm)^2 * 8 m/minute * 7850 kg/m^3 * 0.95', 'kg/hour'] as const),
    ],
    [
      'area laid',
      partsOf(throatFromSettings({ ...wire, travelMmMin: 450 })).areaMm2,
      ...(['pi/4 * (1.2 mm)^2 * 8 m/minute * 0.95 / (450 mm/minute)', 'mm^2'] as const),
    ],
    [
      'mass of a weld',
      valueOf(weldDeposit({ areaMm2: 25, lengthMm: 400, count: 2, metal: 'aluminium' })),
      ...(['25 mm^2 * 400 mm * 2 * 2700 kg/m^3', 'kg'] as const),
    ],
    [
      'gas per metre',
      valueOf(gasPerMetre({ gasFlowLMin: 15, travelMmMin: 450 })),
      ...(['15 l/minute / (450 mm/minute)', 'l/m'] as const),
    ],
    [
      'gas of a weld',
      valueOf(weldGas({ gasFlowLMin: 15, arcS: 110, starts: 8, preFlowS: 0.5, postFlowS: 1 })),
      ...(['15 l/minute * (110 s + 8 * 1.5 s)', 'l'] as const),
    ],
    [
      'electricity per kilogram',
      valueOf(electricityPerKg({ ...arc, sourceEfficiency: 0.85, depositionKgH: 4 })),
      ...(['27 V * 250 A / (0.85 * 4 kg/hour)', 'kWh/kg'] as const),
    ],
    [
      'electricity drawn',
      valueOf(electricityDrawn({ ...arc, sourceEfficiency: 0.85, arcS: 110 })),
      ...(['27 V * 250 A / 0.85 * 110 s', 'kWh'] as const),
    ],
  ])('independent: %s', (_what, ours, formula, name) => {
    const library: unknown = evaluate(formula);
    if (!isUnit(library)) throw new Error(`${formula} has no unit`);
    expect(Math.abs(library.toNumber(name) / ours - 1)).toBeLessThan(1e-12);
  });
});
