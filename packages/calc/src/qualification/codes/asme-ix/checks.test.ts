import { describe, expect, it } from 'vitest';
import { arcEnergy } from '../../../process/arc-energy.js';
import { valueOf } from '../../../testing/value-of.js';
import {
  coversPNumbers,
  judgeSuggested,
  procedureTest,
  suggestedFor,
  suggestProcedureRanges,
  suggestWelderRanges,
  welderTest,
} from '../index.js';
import type { ProcedureTest, WelderTest } from '../records.js';
import type { Confidence, RangeVariable } from '../rule.js';

const mmPerInch = 25.4;
const code = { code: 'ASME BPVC.IX', edition: '2017' } as const;

function procedure(given: Partial<ProcedureTest>, variable: RangeVariable) {
  const test = procedureTest({ ...code, impactRequired: false, maxPassMm: 1, ...given });
  return suggestedFor(suggestProcedureRanges(test), variable);
}
function welder(given: Partial<WelderTest>, variable: RangeVariable) {
  return suggestedFor(suggestWelderRanges(welderTest({ ...code, ...given })), variable);
}
const near = (value: number) => expect.closeTo(value, 9) as number;
const groove = { process: 'SMAW', jointType: 'butt' } as const;
const high: Confidence = 'high';

/** Coupon thickness T, weld metal t, base metal from and to, largest deposit, in mm. Printed, confidence high. */
const table = 'ASME BPVC.IX-2017 Table QW-451.1; mechanicalguruji.com 2020';
const tableChecks: [string, number, number, number, number, number][] = [
  ['asme-qw451-T1.2-t1.2', 1.2, 1.2, 1.2, 2.4, 2.4],
  ['asme-qw451-T3-t3', 3, 3, 1.5, 6, 6],
  ['asme-qw451-T10-t10', 10, 10, 1.5, 20, 20],
  ['asme-qw451-T12-t12', 12, 12, 5, 24, 24],
  ['asme-qw451-T18.9-t18.9', 18.9, 18.9, 5, 37.8, 37.8],
  ['asme-qw451-T19-t19', 19, 19, 5, 38, 38],
  ['asme-qw451-T25-t10', 25, 10, 5, 50, 20],
  ['asme-qw451-T25-t25', 25, 25, 5, 50, 50],
  ['asme-qw451-T38-t38', 38, 38, 5, 200, 200],
  ['asme-qw451-T40-t15', 40, 15, 5, 200, 30],
  ['asme-qw451-T150-t150', 150, 150, 5, 200, 200],
  ['asme-qw451-T160-t160', 160, 160, 5, 212.8, 212.8],
];
it.each(tableChecks)(
  `printed: %s (${table}, ${high})`,
  (_id, thicknessMm, depositedMm, min, max, deposit) => {
    const piece = { ...groove, thicknessMm, depositedMm };
    expect(procedure(piece, 'thickness')).toMatchObject({
      answer: 'range',
      confidence: high,
      band: { min: near(min), max: near(max) },
    });
    expect(procedure(piece, 'depositedThickness')).toMatchObject({
      answer: 'range',
      band: { min: null, max: near(deposit) },
    });
  },
);

describe('printed: toughness, in the inch column (eng-tips 105676, worked example, high)', () => {
  const inch = { ...groove, thicknessMm: mmPerInch, tableUnit: 'in' } as const;
  it('asme-qw403.6-1in, asme-qw403.6-1in-max', () => {
    expect(procedure({ ...inch, impactRequired: true }, 'thickness')).toMatchObject({
      band: { min: near(0.625 * mmPerInch), max: near(2 * mmPerInch) },
    });
  });
  it('asme-qw403.6-none', () => {
    expect(procedure(inch, 'thickness')).toMatchObject({ band: { min: near(0.1875 * mmPerInch) } });
  });
  it('is left open between the two limits while nobody said whether it is demanded', () => {
    const found = procedure({ ...inch, impactRequired: null }, 'thickness');
    expect([4, 10, 20].map((mm) => judgeSuggested(found, mm))).toEqual([
      'outside',
      'cannotSay',
      'inside',
    ]);
  });
});

it('asme-gmaw-s (QW-403.10, from memory, medium)', () => {
  const piece = { process: 'GMAW', jointType: 'butt', thicknessMm: 10 } as const;
  expect(procedure({ ...piece, transfer: 'D' }, 'thickness')).toMatchObject({
    band: { max: near(11) },
  });
  expect(procedure({ ...piece, transfer: 'S' }, 'thickness')).toMatchObject({ band: { max: 20 } });
  const unknown = procedure(piece, 'thickness');
  expect([11, 15, 21].map((mm) => judgeSuggested(unknown, mm))).toEqual([
    'inside',
    'cannotSay',
    'outside',
  ]);
});

it('a thick pass limits to 1.1 T, and may where it is not recorded (QW-403.9, medium)', () => {
  const piece = { ...groove, thicknessMm: 30 } as const;
  expect(procedure({ ...piece, maxPassMm: 14 }, 'thickness')).toMatchObject({
    band: { max: near(33) },
  });
  const unknown = procedure({ ...piece, maxPassMm: null }, 'thickness');
  expect([33, 50, 61].map((mm) => judgeSuggested(unknown, mm))).toEqual([
    'inside',
    'cannotSay',
    'outside',
  ]);
});

it('printed: asme-groove-to-fillet (QW-202.2(c); mewelding.com, high)', () => {
  expect(judgeSuggested(procedure(groove, 'jointType'), 'fillet')).toBe('inside');
  expect(judgeSuggested(procedure(groove, 'throat'), 40)).toBe('inside');
  expect(judgeSuggested(procedure({ jointType: 'fillet' }, 'jointType'), 'butt')).toBe('outside');
});

it('printed: asme-diameter-wps (TWI on diameters, high)', () => {
  expect(judgeSuggested(procedure({ product: 'pipe', diameterMm: 60 }, 'diameter'), 300)).toBe(
    'inside',
  );
});

it('printed: asme-hi (QW-409.1(a), high): 24 V, 200 A, 12 in/min are 24 000 J/in', () => {
  const kjMm = valueOf(arcEnergy({ voltageV: 24, currentA: 200, travelMmMin: 12 * mmPerInch }));
  expect(kjMm * 1000 * mmPerInch).toBeCloseTo(24_000, 6);
});

it('printed: asme-hi-limit (QW-409.1; interpretation on materials-welding.blogspot.com, high)', () => {
  const kjMm = (jPerIn: number) => jPerIn / 1000 / mmPerInch;
  const found = procedure({ heatInputKjMm: kjMm(40_000), impactRequired: true }, 'heatInput');
  expect(judgeSuggested(found, kjMm(41_000))).toBe('outside');
  expect(judgeSuggested(found, kjMm(40_000))).toBe('inside');
});

it('printed: asme-p4, asme-p1-p8 (ASME IX-2023 QW-424, high)', () => {
  expect(coversPNumbers({ test: ['P4', 'P4'], job: ['P4', 'P1'] })).toBe('inside');
  expect(coversPNumbers({ test: ['P1', 'P1'], job: ['P8', 'P1'] })).toBe('outside');
});
it('pinned: P-Numbers, lower ones among themselves, and what is no number, cannot be told', () => {
  expect(coversPNumbers({ test: ['P4', 'P4'], job: ['P1', 'P1'] })).toBe('cannotSay');
  expect(coversPNumbers({ test: ['P-No. 5A', '5A'], job: ['1', 'P5A'] })).toBe('inside');
  expect(coversPNumbers({ test: ['P1', 'P8'], job: ['P8', 'P1'] })).toBe('inside');
  expect(coversPNumbers({ test: ['S460N', 'P1'], job: ['P1', 'P1'] })).toBe('cannotSay');
});

it('pinned: says nothing about a record that contradicts itself', () => {
  const piece = { ...groove, thicknessMm: 10 } as const;
  expect(procedure({ ...piece, depositedMm: 11 }, 'depositedThickness')).toMatchObject({
    reason: 'notGiven',
  });
  expect(procedure({ process: 'GMAW-S', transfer: 'S' }, 'transfer')).toMatchObject({
    reason: 'notGiven',
  });
});

describe('printed: welders', () => {
  const piece = { process: 'SMAW', jointType: 'butt' } as const;
  const qw452 = 'ASME IX 2010 QW-452, slideshare 233916877, high';
  it(`asme-wpq-8, asme-wpq-13, asme-wpq-13-2 (${qw452})`, () => {
    const deposit = (depositedMm: number, layers: number) =>
      welder({ ...piece, depositedMm, layers }, 'depositedThickness');
    expect(deposit(8, 3)).toMatchObject({ answer: 'range', band: { min: null, max: 16 } });
    expect(deposit(13, 3)).toMatchObject({ answer: 'any' });
    expect(deposit(13, 2)).toMatchObject({ answer: 'range', band: { min: null, max: 26 } });
  });

  it.each([
    ['asme-qw4523-20', 20, 20],
    ['asme-qw4523-60.3', 60.3, 25],
    ['asme-qw4523-73', 73, 25],
    ['asme-qw4523-114.3', 114.3, 73],
  ])('%s (TWI on diameters; QW-452.3, high)', (_id, diameterMm, min) => {
    const found = welder({ ...piece, product: 'pipe', diameterMm }, 'diameter');
    expect(found).toMatchObject({ answer: 'range', band: { min, max: null } });
  });

  it.each([
    ['asme-3G', '3G', 'plate', 'position', ['F', 'V']],
    ['asme-4G-fillet', '4G', 'plate', 'filletPosition', ['F', 'H', 'O']],
    ['asme-5G', '5G', 'pipe', 'position', ['F', 'V', 'O']],
  ] as const)('%s (training slides QW-461.9, high)', (_id, position, product, variable, values) => {
    expect(welder({ ...piece, position, product }, variable)).toMatchObject({
      answer: 'list',
      values,
    });
  });
});

it('memory: lower F-Numbers are held on backing only, QW-433 (medium)', () => {
  const filler = (backing: boolean | null) =>
    welder({ process: 'SMAW', jointType: 'butt', fillerGroup: 'F4', backing }, 'fillerGroup');
  expect(filler(true)).toMatchObject({ values: ['F1', 'F2', 'F3', 'F4'], unsure: [] });
  expect(filler(false)).toMatchObject({ values: ['F4'], unsure: ['F1', 'F2', 'F3'] });
  expect(filler(null)).toMatchObject({ values: ['F4'], unsure: ['F1', 'F2', 'F3'] });
  expect(judgeSuggested(filler(false), 'F3')).toBe('cannotSay');
});
