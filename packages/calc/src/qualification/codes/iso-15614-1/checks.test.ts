import { describe, expect, it } from 'vitest';
import { judgeSuggested } from '../judge.js';
import { procedureTest, type ProcedureTest } from '../records.js';
import type { Confidence, RangeVariable } from '../rule.js';
import { suggestedFor, type Suggested } from '../suggest.js';
import { suggestProcedureRanges } from '../index.js';
import { levelOf, levelServes } from './level.js';
import { coversMaterialPair, type GroupedMaterial } from './materials.js';

/** A test piece to level 2 of 2017 on which nothing but the given is known. */
function piece(given: Partial<ProcedureTest>): ProcedureTest {
  return procedureTest({ code: 'ISO 15614-1', edition: '2017', level: '2', ...given });
}
function suggest(given: Partial<ProcedureTest>, variable: RangeVariable): Suggested {
  const found = suggestedFor(suggestProcedureRanges(piece(given)), variable);
  if (found === null) throw new Error(`no row for ${variable}`);
  return found;
}
const butt = { jointType: 'butt', impactRequired: false } as const;
const memory = 'ISO 15614-1 Table 7 level 2 (2004 Table 5); from memory';

/** Id, thickness of the test piece, runs, lower and upper limit in mm, confidence, source. */
const buttChecks: [string, number, 'single' | 'multi', number, number, Confidence, string][] = [
  ['iso15614-butt-multi-2', 2, 'multi', 1.4, 4, 'medium', memory],
  ['iso15614-butt-multi-3', 3, 'multi', 2.1, 6, 'medium', memory],
  ['iso15614-butt-multi-6', 6, 'multi', 3, 12, 'medium', memory],
  ['iso15614-butt-multi-10', 10, 'multi', 3, 20, 'medium', `${memory}; soudeurs.com 10280`],
  ['iso15614-butt-multi-12', 12, 'multi', 3, 24, 'medium', memory],
  ['iso15614-butt-multi-15', 15, 'multi', 7.5, 30, 'medium', memory],
  ['iso15614-butt-multi-20', 20, 'multi', 10, 40, 'medium', memory],
  ['iso15614-butt-multi-50', 50, 'multi', 25, 100, 'medium', memory],
  ['iso15614-butt-multi-120', 120, 'multi', 50, 240, 'low', memory],
  ['iso15614-butt-single-2', 2, 'single', 1.4, 2.6, 'medium', memory],
  ['iso15614-butt-single-4', 4, 'single', 3, 5.2, 'medium', memory],
  ['iso15614-butt-single-8', 8, 'single', 4, 10.4, 'medium', memory],
  ['iso15614-butt-single-12', 12, 'single', 6, 15.6, 'medium', memory],
  ['iso15614-butt-single-15', 15, 'single', 7.5, 16.5, 'medium', memory],
];

describe.each(['2017', '2004'])('butt thickness, edition %s', (edition) => {
  it.each(buttChecks)(
    '%s: %s mm %s: %s to %s (%s, %s)',
    (_id, thicknessMm, runs, min, max, sure) => {
      const found = suggest({ ...butt, edition, thicknessMm, runs }, 'thickness');
      expect(found).toMatchObject({
        answer: sure === 'low' ? 'cannotSay' : 'range',
        confidence: sure,
        band: { min: expect.closeTo(min, 9) as number, max: expect.closeTo(max, 9) as number },
      });
      // A row that is not sure shows its limits and calls nothing inside.
      const expected = sure === 'low' ? 'cannotSay' : 'inside';
      expect(judgeSuggested(found, thicknessMm)).toBe(expected);
      expect(judgeSuggested(found, max)).toBe(expected);
      expect(judgeSuggested(found, max + 0.1)).toBe(sure === 'low' ? 'cannotSay' : 'outside');
    },
  );
});

type RangeCheck = [
  id: string,
  given: Partial<ProcedureTest>,
  variable: RangeVariable,
  min: number | null,
  max: number | null,
  confidence: Confidence,
  source: string,
];
const rangeChecks: RangeCheck[] = [
  [
    'iso15614-butt-impact-cap',
    { ...butt, thicknessMm: 12, runs: 'multi', impactRequired: true, impactTested: false },
    'thickness',
    3,
    12,
    'medium',
    `${memory}, note a`,
  ],
  [
    'iso15614-butt-impact-ok',
    { ...butt, thicknessMm: 10, runs: 'multi', impactRequired: true, impactTested: true },
    'thickness',
    3,
    20,
    'medium',
    'soudeurs.com thread 10280 (2004+A2)',
  ],
  [
    'iso15614-combined-root',
    { ...butt, depositedMm: 3 },
    'depositedThickness',
    null,
    6,
    'high',
    'bck.vn on ISO 15614-1:2017 (GTAW 3 mm: 6 mm)',
  ],
  [
    'iso15614-fillet-t10-2004',
    { jointType: 'fillet', thicknessMm: 10, edition: '2004' },
    'thickness',
    5,
    12,
    'medium',
    'ISO 15614-1:2004 Table 6; from memory',
  ],
  [
    'iso15614-fillet-t30',
    { jointType: 'fillet', thicknessMm: 30 },
    'thickness',
    5,
    null,
    'medium',
    'ISO 15614-1 Table 8, 2004 Table 6; from memory',
  ],
  [
    'iso15614-throat-single',
    { jointType: 'fillet', thicknessMm: 10, throatMm: 4, runs: 'single' },
    'throat',
    3,
    6,
    'medium',
    'ISO 15614-1 Table 8; from memory',
  ],
  [
    'iso15614-diam-60',
    { product: 'pipe', diameterMm: 60.3 },
    'diameter',
    30.15,
    null,
    'medium',
    'ISO 15614-1 8.3.3; from memory',
  ],
  [
    'iso15614-diam-40',
    { product: 'pipe', diameterMm: 40 },
    'diameter',
    25,
    null,
    'medium',
    'ISO 15614-1 8.3.3; from memory',
  ],
  [
    'iso15614-diam-20',
    { product: 'pipe', diameterMm: 20, edition: '2004' },
    'diameter',
    10,
    40,
    'low',
    'ISO 15614-1:2004 Table 7; from memory',
  ],
  [
    'iso15614-hi',
    { heatInputKjMm: 1.2, impactRequired: true, hardnessRequired: true },
    'heatInput',
    0.9,
    1.5,
    'high',
    'soudeurs.com 26982 (25 % at level 2)',
  ],
  [
    'iso15614-hi-impact',
    { heatInputKjMm: 1.2, impactRequired: true, hardnessRequired: false },
    'heatInput',
    null,
    1.5,
    'medium',
    'ISO 15614-1 8.4.7; split from memory',
  ],
];
it.each(rangeChecks)('%s', (_id, given, variable, min, max, _confidence, source) => {
  expect(source).not.toBe('');
  expect(suggest(given, variable)).toMatchObject({
    answer: 'range',
    band: {
      min: min === null ? null : (expect.closeTo(min, 9) as number),
      max: max === null ? null : (expect.closeTo(max, 9) as number),
    },
  });
});

/** Id, test piece, variable, value of the job, answer, confidence, source. */
const answerChecks: [
  string,
  Partial<ProcedureTest>,
  RangeVariable,
  number | string,
  string,
  Confidence,
  string,
][] = [
  [
    'iso15614-fillet-t10-gap',
    { jointType: 'fillet', thicknessMm: 10 },
    'thickness',
    16,
    'cannotSay',
    'low',
    'editions differ: 1.2 t (2004), 2 t (2017 as remembered)',
  ],
  [
    'iso15614-throat-multi',
    { jointType: 'fillet', throatMm: 6, runs: 'multi' },
    'throat',
    60,
    'inside',
    'medium',
    'ISO 15614-1 Table 8; from memory',
  ],
  [
    'iso15614-plate-to-pipe',
    { product: 'plate' },
    'diameter',
    508,
    'inside',
    'medium',
    'ISO 15614-1:2004 8.3.2.3 (over 500); from memory',
  ],
  [
    'iso15614-plate-to-pipe-no',
    { product: 'plate' },
    'diameter',
    400,
    'outside',
    'medium',
    'ISO 15614-1:2004 8.3.2.3; from memory',
  ],
  [
    'iso15614-pos-noreq',
    { position: 'PA', impactRequired: false, hardnessRequired: false },
    'position',
    'PF',
    'inside',
    'medium',
    'ISO 15614-1 8.4.2; weldinginspections.net 989',
  ],
  [
    'iso15614-pos-PG',
    { position: 'PF', impactRequired: false, hardnessRequired: false },
    'position',
    'PG',
    'outside',
    'high',
    'weldinginspections.net 989',
  ],
  [
    'iso15614-transfer-S-D',
    { process: '135', transfer: 'S' },
    'transfer',
    'D',
    'outside',
    'medium',
    'ISO 15614-1 8.5.2; from memory',
  ],
  [
    'iso15614-transfer-D-S',
    { process: '135', transfer: 'D' },
    'transfer',
    'S',
    'outside',
    'medium',
    'ISO 15614-1 8.5.2; from memory',
  ],
];
it.each(answerChecks)('%s', (_id, given, variable, job, expected) => {
  expect(judgeSuggested(suggest(given, variable), job)).toBe(expected);
});

const part = (group: string, yieldMPa: number | null = null): GroupedMaterial => ({
  group,
  yieldMPa,
});
const s355 = part('1.2', 355);
const s235 = part('1.1', 235);
const pairs = 'ped-online.com table of pairs';
const notes = 'bck.vn notes on groups';
type Pair = readonly [GroupedMaterial, GroupedMaterial];
const twice = (material: GroupedMaterial): Pair => [material, material];
const materialChecks: [string, Pair, Pair, string, Confidence, string][] = [
  ['iso15614-mat-355-235', twice(s355), twice(s235), 'inside', 'high', `${notes}; ${pairs}`],
  ['iso15614-mat-355-420', twice(s355), twice(part('1.3', 420)), 'outside', 'high', notes],
  [
    'iso15614-mat-22-12',
    twice(part('2.2', 500)),
    twice(s355),
    'inside',
    'high',
    'soudeurs.com 1138',
  ],
  ['iso15614-mat-81-12', twice(s355), [part('8.1'), s355], 'outside', 'high', pairs],
  [
    'iso15614-mat-33',
    twice(part('3.1', 690)),
    [part('3.1', 690), part('2.2', 500)],
    'inside',
    'high',
    pairs,
  ],
  ['iso15614-mat-101', twice(part('10.1')), twice(part('10.2')), 'outside', 'high', notes],
  [
    'iso15614-sa36',
    twice(s355),
    twice(part('11.1', 250)),
    'cannotSay',
    'high',
    'ASME IX-2017 QW/QB-422: SA-36 is 11.1',
  ],
];
it.each(materialChecks)('printed: %s', (_id, test, job, expected) => {
  expect(coversMaterialPair({ test, job })).toBe(expected);
  expect(coversMaterialPair({ test, job: [job[1], job[0]] })).toBe(expected);
});

describe('pinned: material pairs beyond the published examples', () => {
  it('need yield or sub-group to answer', () => {
    expect(coversMaterialPair({ test: twice(s355), job: twice(part('1.1')) })).toBe('cannotSay');
    expect(coversMaterialPair({ test: twice(part('8')), job: twice(part('8.1')) })).toBe(
      'cannotSay',
    );
  });
  it('hold the same or a lower sub-group in 4, 5, 6, 8 and 9', () => {
    expect(coversMaterialPair({ test: twice(part('8.2')), job: twice(part('8.1')) })).toBe(
      'inside',
    );
    expect(coversMaterialPair({ test: twice(part('8.1')), job: twice(part('8.2')) })).toBe(
      'outside',
    );
  });
  it('take each side of a mixed joint with its own', () => {
    const test: Pair = [part('8.1'), s355];
    expect(coversMaterialPair({ test, job: [s235, part('8.1')] })).toBe('inside');
    expect(coversMaterialPair({ test, job: [part('8.1'), part('1.3', 420)] })).toBe('outside');
  });
  it('cannot be told for a test pair that the table does not list', () => {
    expect(coversMaterialPair({ test: twice(part('6.1')), job: twice(part('6.1')) })).toBe(
      'cannotSay',
    );
    expect(coversMaterialPair({ test: twice(s355), job: [s355, part('unknown')] })).toBe(
      'cannotSay',
    );
  });
});

describe('printed: levels (TWI; BSI foreword; metaletech.com 2025; all high)', () => {
  it('iso15614-level-default: 2 where none is named', () => {
    expect(levelOf(null)).toBe('2');
    expect(levelOf('Level 1')).toBe('1');
    expect(levelOf('3')).toBe(null);
  });
  it('iso15614-level2-to-1, iso15614-level1-to-2', () => {
    expect(levelServes({ tested: '2', demanded: '1' })).toBe('inside');
    expect(levelServes({ tested: '1', demanded: '2' })).toBe('outside');
    expect(levelServes({ tested: '2', demanded: null })).toBe('inside');
    expect(levelServes({ tested: 'x', demanded: '2' })).toBe('cannotSay');
    expect(levelServes({ tested: null, demanded: '1' })).toBe('cannotSay');
  });
});
