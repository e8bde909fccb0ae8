import { describe, expect, it } from 'vitest';
import {
  judgeSuggested,
  maxSinglePassFilletMm,
  mayBePrequalified,
  procedureTest,
  suggestedFor,
  suggestProcedureRanges,
  suggestWelderRanges,
  welderTest,
} from '../index.js';
import type { ProcedureTest, WelderTest } from '../records.js';
import type { Confidence, RangeVariable } from '../rule.js';

const mmPerInch = 25.4;
const code = { code: 'AWS D1.1/D1.1M', edition: '2020' } as const;
const near = (value: number) => expect.closeTo(value, 9) as number;

function procedure(given: Partial<ProcedureTest>, variable: RangeVariable) {
  return suggestedFor(suggestProcedureRanges(procedureTest({ ...code, ...given })), variable);
}
function welder(given: Partial<WelderTest>, variable: RangeVariable) {
  return suggestedFor(suggestWelderRanges(welderTest({ ...code, ...given })), variable);
}

const plate = {
  jointType: 'butt',
  product: 'plate',
  squareGroove: false,
  impactRequired: false,
  tableUnit: 'in',
} as const;

describe.each(['2020', '2015'])('plate PQR thickness, edition %s', (edition) => {
  it.each([
    ['aws-pqr-0.25', 0.25, 0.5],
    ['aws-pqr-0.375', 0.375, 0.75],
    ['aws-pqr-0.5', 0.5, 1],
    ['aws-pqr-1', 1, null],
    ['aws-pqr-1.5', 1.5, null],
  ])('%s (Table 6.2 (2020), 4.2 (2015); from memory, medium)', (_id, inches, maxIn) => {
    const found = procedure({ ...plate, edition, thicknessMm: inches * mmPerInch }, 'thickness');
    expect(found).toMatchObject({
      answer: 'range',
      clause: edition === '2020' ? 'Table 6.2' : 'Table 4.2',
      band: { min: near(mmPerInch / 8), max: maxIn === null ? null : near(maxIn * mmPerInch) },
    });
  });
});

it('is left open above the tested plate while the groove is not known, and below 16 mm with impact', () => {
  const metric = { ...plate, tableUnit: 'mm', thicknessMm: 20 } as const;
  const square = procedure({ ...metric, squareGroove: null }, 'thickness');
  expect([20, 30, 41].map((mm) => judgeSuggested(square, mm))).toEqual([
    'inside',
    'cannotSay',
    'outside',
  ]);
  const impact = procedure({ ...metric, impactRequired: true }, 'thickness');
  expect(impact).toMatchObject({ band: { min: 16, max: 40 } });
});

it('gives pipe its range from standard coupons only (Table 6.2, from memory, medium)', () => {
  const pipe = { jointType: 'butt', product: 'pipe', tableUnit: 'in' } as const;
  const coupon = { ...pipe, diameterMm: 168.3, thicknessMm: 14.27 };
  expect(procedure(coupon, 'thickness')).toMatchObject({ band: { min: near(4.7625), max: null } });
  expect(procedure(coupon, 'diameter')).toMatchObject({ band: { min: near(101.6), max: null } });
  expect(procedure({ ...coupon, diameterMm: 150 }, 'thickness')).toMatchObject({
    answer: 'cannotSay',
  });
});

const forum = 'AWS forum 38654; D1.1:2015 Table 4.5';
const essential: [
  string,
  Partial<ProcedureTest>,
  RangeVariable,
  number,
  number,
  Confidence,
  string,
][] = [
  ['aws-amp', { process: 'GMAW', currentA: 234.8 }, 'current', 211.32, 258.28, 'high', forum],
  ['aws-volt', { process: 'GMAW', voltageV: 27.9 }, 'voltage', 25.947, 29.853, 'high', forum],
  ['aws-speed', { process: 'GMAW', travelMmMin: 300 }, 'travel', 225, 375, 'medium', 'memory'],
  ['aws-gtaw-amp', { process: 'GTAW', currentA: 120 }, 'current', 90, 150, 'high', forum],
];
it.each(essential)('%s', (_id, given, variable, min, max, confidence) => {
  expect(procedure(given, variable)).toMatchObject({
    answer: 'range',
    confidence,
    band: { min: near(min), max: near(max) },
  });
});

it('printed: aws-dia (D1.1:2015 Table 4.5: any increase or decrease, high)', () => {
  const found = procedure({ process: '135', wireDiameterMm: 1.2 }, 'wireDiameter');
  expect(judgeSuggested(found, 1)).toBe('outside');
  expect(judgeSuggested(found, 1.2)).toBe('inside');
});

it('leaves gas flow open where the editions differ (low beyond +25/-10 %)', () => {
  const found = procedure({ process: 'GMAW', gasFlowLMin: 20 }, 'gasFlow');
  expect([15, 17, 18, 25, 28, 31].map((flow) => judgeSuggested(found, flow))).toEqual([
    'outside',
    'cannotSay',
    'inside',
    'inside',
    'cannotSay',
    'outside',
  ]);
});

it('printed: takes the current of a covered electrode from its maker (D1.1:2015 Table 4.5, high)', () => {
  expect(procedure({ process: 'SMAW', currentA: 120 }, 'current')).toMatchObject({
    answer: 'cannotSay',
    reason: 'notGiven',
  });
});

it('names a vertical procedure vertical only, unlike a welder (Table 6.1, medium; Table 6.10, high)', () => {
  expect(procedure({ ...plate, position: '3G up' }, 'position')).toMatchObject({ values: ['V'] });
  expect(procedure({ ...plate, product: 'pipe', position: '5G' }, 'position')).toMatchObject({
    answer: 'cannotSay',
  });
});

describe('printed: what needs no test', () => {
  it('aws-prequal-s, aws-prequal-gtaw (D1.1:2000 3.2.1 and 3.2.2, high)', () => {
    expect(mayBePrequalified({ process: 'GMAW', transfer: 'D' })).toBe(false);
    expect(mayBePrequalified({ process: 'GTAW', transfer: null })).toBe(false);
    expect(mayBePrequalified({ process: 'GMAW', transfer: 'S' })).toBe(true);
    expect(mayBePrequalified({ process: 'GMAW', transfer: null })).toBe(null);
    expect(mayBePrequalified({ process: 'SMAW', transfer: null })).toBe(true);
  });

  it.each([
    ['aws-singlepass-SMAW-H', 'SMAW', 'H', 8],
    ['aws-singlepass-SMAW-F', 'SMAW', 'F', 10],
    ['aws-singlepass-GMAW-F', 'GMAW', 'F', 12],
    ['aws-singlepass-GMAW-H', 'GMAW', 'H', 10],
    ['aws-singlepass-GMAW-OH', 'GMAW', 'OH', 8],
    ['aws-singlepass-FCAW-V', 'FCAW', 'V', 12],
  ] as const)('%s (D1.1:2020 Table 5.1, high)', (_id, process, position, mm) => {
    expect(maxSinglePassFilletMm({ process, position })).toBe(mm);
  });

  it('gives nothing for a process that the table does not limit this way', () => {
    expect(maxSinglePassFilletMm({ process: 'SAW', position: 'F' })).toBe(null);
  });
});

describe('printed: welders', () => {
  const groove = { jointType: 'butt', product: 'plate', tableUnit: 'in' } as const;
  it.each([
    ['aws-wq-3/8', 0.375, 0.75],
    ['aws-wq-1', 1, null],
  ])('%s (welder-test laboratory FAQ; Table 6.11, high)', (_id, inches, maxIn) => {
    expect(welder({ ...groove, thicknessMm: inches * mmPerInch }, 'thickness')).toMatchObject({
      answer: 'range',
      band: { min: near(mmPerInch / 8), max: maxIn === null ? null : near(maxIn * mmPerInch) },
    });
  });
  it.each([
    ['aws-3G', '3G', ['F', 'H', 'V']],
    ['aws-4G', '4G', ['F', 'OH']],
  ])('%s (D1.1:2020 Table 6.10, high)', (_id, position, values) => {
    expect(welder({ ...groove, position }, 'position')).toMatchObject({ answer: 'list', values });
  });
  it('aws-pipe-small (D1.1:2020 Table 10.13, high): a diameter alone does not say that the piece was pipe', () => {
    const pipe = { jointType: 'butt', diameterMm: 60.3, tableUnit: 'in' } as const;
    expect(welder({ ...pipe, product: 'pipe' }, 'diameter')).toMatchObject({
      ...{ answer: 'range', band: { min: near(19.05), max: near(101.6) } },
    });
    expect(welder(pipe, 'diameter')).toMatchObject({
      ...{ answer: 'cannotSay', reason: 'inputMissing' },
    });
  });
});
