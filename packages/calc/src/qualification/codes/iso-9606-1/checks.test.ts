import { describe, expect, it } from 'vitest';
import { judgeSuggested, suggestedFor, suggestWelderRanges, welderTest } from '../index.js';
import type { WelderTest } from '../records.js';
import type { Confidence, RangeVariable } from '../rule.js';

function suggest(given: Partial<WelderTest>, variable: RangeVariable) {
  const test = welderTest({ code: 'EN ISO 9606-1', edition: '2017', ...given });
  return suggestedFor(suggestWelderRanges(test), variable);
}
const near = (value: number) => expect.closeTo(value, 9) as number;

const memory = 'ISO 9606-1 Tables 6 and 8; from memory';
const examples = 'German worked designation examples';
const guides = 'German one-page guides';
type DimensionCheck = [
  string,
  Partial<WelderTest>,
  RangeVariable,
  number,
  number | null,
  Confidence,
  string,
];
const butt = (depositedMm: number) => ({ jointType: 'butt', depositedMm, layers: 3 });
const fillet = (thicknessMm: number) => ({ jointType: 'fillet', thicknessMm });
const pipe = (diameterMm: number) => ({ product: 'pipe', diameterMm }) as const;
const dimensions: DimensionCheck[] = [
  ['iso9606-s-1', butt(1), 'depositedThickness', 1, 3, 'medium', memory],
  ['iso9606-s-2', butt(2), 'depositedThickness', 2, 4, 'medium', memory],
  ['iso9606-s-3.6', butt(3.6), 'depositedThickness', 3, 7.2, 'medium', memory],
  ['iso9606-s-10', butt(10), 'depositedThickness', 3, 20, 'medium', memory],
  ['iso9606-s-12', butt(12), 'depositedThickness', 3, null, 'high', examples],
  ['iso9606-s-15', butt(15), 'depositedThickness', 3, null, 'high', examples],
  ['iso9606-fw-t-2', fillet(2), 'thickness', 2, 4, 'medium', memory],
  ['iso9606-fw-t-1', fillet(1), 'thickness', 1, 3, 'medium', memory],
  ['iso9606-fw-t-10', fillet(10), 'thickness', 3, null, 'high', examples],
  ['iso9606-D-20', pipe(20), 'diameter', 20, 40, 'high', guides],
  ['iso9606-D-40', pipe(40), 'diameter', 25, null, 'high', guides],
  ['iso9606-D-60.3', pipe(60.3), 'diameter', 30.15, null, 'high', guides],
  ['iso9606-D-168.3', pipe(168.3), 'diameter', 84.15, null, 'high', guides],
];
it.each(dimensions)('%s', (_id, given, variable, min, max) => {
  expect(suggest(given, variable)).toMatchObject({
    answer: 'range',
    edition: '2012',
    band: { min: near(min), max: max === null ? null : near(max) },
  });
});

const oneSheet = 'German one-page sheet (Q7)';
const lists: [string, Partial<WelderTest>, RangeVariable, string[], Confidence, string][] = [
  ...(
    [
      ['iso9606-bw-PC', 'PC', ['PA', 'PC']],
      ['iso9606-bw-PE', 'PE', ['PA', 'PC', 'PE']],
      ['iso9606-bw-PF', 'PF', ['PA', 'PF']],
      ['iso9606-bw-PH', 'PH', ['PA', 'PE', 'PF', 'PH']],
      ['iso9606-bw-PJ', 'PJ', ['PA', 'PE', 'PG', 'PJ']],
      ['iso9606-bw-H-L045', 'H-L045', ['PA', 'PC', 'PE', 'PF', 'PH', 'H-L045']],
    ] as [string, string, string[]][]
  ).map(([id, position, values]): (typeof lists)[number] => [
    id,
    { jointType: 'butt', position },
    'position',
    values,
    'high',
    guides,
  ]),
  [
    'iso9606-fw-PB',
    { jointType: 'fillet', position: 'PB' },
    'position',
    ['PA', 'PB'],
    'high',
    examples,
  ],
  [
    'iso9606-fw-PF',
    { jointType: 'fillet', position: 'PF' },
    'position',
    ['PA', 'PB', 'PF'],
    'high',
    oneSheet,
  ],
  ['iso9606-fm1', { fillerGroup: 'FM1' }, 'fillerGroup', ['FM1', 'FM2'], 'high', examples],
  ['iso9606-fm5', { fillerGroup: 'FM5' }, 'fillerGroup', ['FM5'], 'medium', 'Table 3; from memory'],
  [
    'iso9606-transfer',
    { process: '135', transfer: 'D' },
    'transfer',
    ['D', 'G', 'S', 'P'],
    'high',
    `${examples}; Paggin`,
  ],
  [
    'iso9606-ssnb',
    { weldDetail: 'ss nb' },
    'weldDetail',
    ['ss nb', 'ss mb', 'bs', 'ss gb', 'ss fb'],
    'high',
    examples,
  ],
  ['iso9606-ml', { weldDetail: 'ml' }, 'weldDetail', ['sl', 'ml'], 'high', examples],
];
it.each(lists)('%s', (_id, given, variable, values) => {
  expect(suggest(given, variable)).toMatchObject({ answer: 'list', values });
});

const answers: [string, Partial<WelderTest>, RangeVariable, number | string, string, string][] = [
  ['iso9606-plate-pipe', { product: 'plate' }, 'diameter', 450, 'outside', `${examples}, high`],
  [
    'iso9606-plate-pipe-rot',
    { product: 'plate' },
    'diameterRotating',
    80,
    'inside',
    `${examples} (EN 287-1 said 150), high`,
  ],
  [
    'iso9606-bw-fw',
    { jointType: 'butt', supplementaryFillet: false },
    'jointType',
    'fillet',
    'outside',
    'TWI JK130; DEKRA; German guide, high',
  ],
  ['iso9606-135-138', { process: '135' }, 'process', '138', 'inside', `${examples}, high`],
  ['iso9606-135-136', { process: '135' }, 'process', '136', 'outside', `${examples}, high`],
  [
    'iso9606-transfer-S',
    { process: '135', transfer: 'S' },
    'transfer',
    'D',
    'outside',
    `${examples}, high`,
  ],
];
it.each(answers)('printed: %s', (_id, given, variable, job, expected) => {
  expect(judgeSuggested(suggest(given, variable), job)).toBe(expected);
});

describe('pinned: where the tables are silent or unsure', () => {
  it('PC is neither in nor out of a fillet test in PD, PE or PH', () => {
    const found = suggest({ jointType: 'fillet', position: 'PD' }, 'position');
    expect(judgeSuggested(found, 'PC')).toBe('cannotSay');
    expect(judgeSuggested(found, 'PE')).toBe('inside');
    expect(judgeSuggested(found, 'PF')).toBe('outside');
  });
  it('a thick butt test needs its layers', () => {
    expect(suggest({ ...butt(15), layers: null }, 'depositedThickness')).toMatchObject({
      reason: 'inputMissing',
    });
    expect(suggest({ ...butt(15), layers: 2 }, 'depositedThickness')).toMatchObject({
      reason: 'notGiven',
    });
  });
  it('a supplementary fillet test gives fillets in PA and PB', () => {
    const supplemented = { jointType: 'butt', supplementaryFillet: true };
    expect(suggest(supplemented, 'jointType')).toMatchObject({ values: ['butt', 'fillet'] });
    expect(suggest(supplemented, 'filletPosition')).toMatchObject({ values: ['PA', 'PB'] });
  });
  it('aluminium is sent to ISO 9606-2', () => {
    const test = welderTest({ code: 'ISO 9606-1', edition: '2012', materialGroup: '23.1' });
    expect(suggestWelderRanges(test).cannotSay?.words).toContain('ISO 9606-2');
  });
  it('a certificate to EN 287-1 is another code', () => {
    const test = welderTest({ code: 'EN 287-1', edition: '2011' });
    expect(suggestWelderRanges(test).cannotSay?.reason).toBe('unknownCode');
  });
});
