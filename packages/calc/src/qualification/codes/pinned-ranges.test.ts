import { expect, it } from 'vitest';
import {
  operatorTest,
  procedureTest,
  suggestOperatorRanges,
  suggestProcedureRanges,
  suggestWelderRanges,
  welderTest,
  type ProcedureTest,
  type Suggested,
  type SuggestedRanges,
  type WelderTest,
} from './index.js';

/** Values that are combined so that each meets most of the others: piece n takes the n-th of every list in turn. */
function pieces<T>(count: number, lists: { [K in keyof T]?: readonly T[K][] }): Partial<T>[] {
  const entries = Object.entries(lists) as [string, readonly unknown[]][];
  return Array.from({ length: count }, (_, at) =>
    Object.fromEntries(
      entries.map(([key, values], column) => [
        key,
        values[(at + Math.floor(at / values.length) * column) % values.length],
      ]),
    ),
  ) as Partial<T>[];
}

const procedurePieces = pieces<ProcedureTest>(240, {
  level: ['2', '2', '2', '2', '1', '2', null],
  process: ['135', '136', '141', '121', '111', 'GMAW-S', 'GTAW', '138', 'SAW', '131', '15'],
  mechanisation: ['manual', 'partlyMechanised', 'automatic'],
  transfer: ['S', 'D', 'P', 'G', null],
  jointType: ['butt', 'fillet', 'tButt', 'butt'],
  product: ['plate', 'pipe', 'plate'],
  thicknessMm: [
    ...[1, 1.5, 2, 3, 3.1, 5, 8, 10, 12, 12.1, 12.7, 19, 20, 25, 25.4, 30, 38, 38.1],
    ...[40, 45, 100, 101, 150, 160, 200, 203.2, 210],
  ],
  diameterMm: [20, 25, 25.1, 60, 73, 100, 168, 500, 610],
  throatMm: [3, 5, 9.9, 10, 12],
  depositedMm: [1, 3, 5, 8, 10, 12, 19, 20, 38, 40, 100, 150, 210],
  runs: ['multi', 'single'],
  sides: ['one', 'both'],
  backing: [false, true],
  gouged: [false, true],
  squareGroove: [false, true],
  maxPassMm: [6, 13, 14],
  branchAngleDeg: [30, 60, 90],
  position: [
    'PA',
    'PB',
    'PC',
    'PE',
    'PF',
    'PG',
    'PH',
    'PJ',
    'H-L045',
    '1G',
    '2G',
    '3G',
    '4G',
    '6G',
    '1F',
    '2F',
  ],
  materialGroups: [
    ['1.1', '1.1'],
    ['1.2', '8.1'],
    ['P1', 'P1'],
    ['2.2', '1.2'],
    ['P4', 'P1'],
    ['3.1', '3.1'],
    ['11.1', '11.1'],
    ['5.1', '5.1'],
    ['P3', 'P1'],
    ['P8', 'P8'],
    ['8.2'],
    ['x', '1.1'],
    ['22.3', '22.3'],
  ],
  yieldsMPa: [
    [235, 235],
    [355, 355],
    [460, 355],
  ],
  filler: ['G 42 4 M21 3Si1', 'ER70S-6'],
  fillerGroup: ['F6', 'F4', 'FM1'],
  gas: ['M21', 'C1', 'I1', 'M20'],
  co2Pct: [8, 18, 100],
  gasFlowLMin: [12, 16],
  currentType: ['DC+', 'DC-', 'AC'],
  wireDiameterMm: [1, 1.2, 1.6],
  currentA: [180, 250],
  voltageV: [20, 27],
  wireSpeedMMin: [6, 9],
  travelMmMin: [300, 520],
  heatInputKjMm: [0.6, 1.2],
  preheatC: [20, 100, -5],
  interpassC: [150, 250],
  impactRequired: [false, true],
  impactTested: [false, true],
  hardnessRequired: [false, true],
  tableUnit: ['mm', 'in'],
});

const welderPieces = pieces<WelderTest>(160, {
  process: ['135', '136', '141', '111', '121', 'SMAW', 'GMAW', 'GTAW'],
  transfer: ['S', 'D', null],
  jointType: ['butt', 'fillet', 'butt'],
  supplementaryFillet: [false, true],
  product: ['plate', 'pipe'],
  thicknessMm: [1, 2, 3, 5, 9.5, 10, 12, 12.7, 13, 19, 20, 25.4, 26],
  depositedMm: [1, 2, 3, 6, 12, 12.7, 13, 19, 20],
  diameterMm: [12, 20, 25, 25.4, 60, 73, 100, 150, 610],
  layers: [1, 2, 3],
  position: [
    'PA',
    'PB',
    'PC',
    'PD',
    'PE',
    'PF',
    'PG',
    'PH',
    'PJ',
    'H-L045',
    'J-L045',
    '1G',
    '2G',
    '3G',
    '4G',
    '5G',
    '6G',
    '1F',
    '2F',
    '3F',
    '4F',
  ],
  weldDetail: ['ss nb', 'ss mb', 'bs', 'ss gb', 'ss fb', 'sl', 'ml'],
  fillerGroup: [
    'FM1',
    'FM2',
    'FM3',
    'FM4',
    'FM5',
    'FM6',
    'F6',
    'F4',
    'F1',
    'F2',
    'F3',
    'F5',
    'F43',
  ],
  fillerType: [
    ...['S', 'B', 'R', 'RB', 'P', 'M', 'nm', 'A', 'RA', 'RC', 'RR', 'C', 'V', 'W', 'Y', 'Z'],
  ],
  materialGroup: ['1.1', 'P1', '8.1', 'P8', 'P15F'],
  backing: [false, true],
  tableUnit: ['mm', 'in'],
});

const operatorPieces = pieces<ReturnType<typeof operatorTest>>(12, {
  process: ['135', '121', '141'],
  mechanisation: ['automatic', 'fullyMechanised'],
  unit: ['R1', 'R2'],
  jointSensor: [true, false],
  arcSensor: [true, false],
  runs: ['multi', 'single'],
  position: ['PA', 'PB'],
  visualControl: ['direct', 'remote'],
  arcLengthControl: [true, false],
  jointTracking: [true, false],
  backing: [true, false],
});

function line({ variable, unit, clause, confidence, source, tested, ...rest }: Suggested): string {
  const from = `${variable} ${unit ?? '-'} [${clause}; ${confidence}; ${source}]`;
  const { code: _code, edition: _edition, answer, ...given } = rest;
  return `${from} ${JSON.stringify(tested)} ${answer} ${JSON.stringify(given)}`;
}

/** Every different answer of one book, in the order in which the pieces bring it up. */
function answersOf(name: string, all: readonly SuggestedRanges[]): string[] {
  const scopes = all.flatMap(({ cannotSay }) => (cannotSay === null ? [] : [cannotSay.words]));
  const lines = all.flatMap(({ ranges }) => ranges.map(line));
  return [`# ${name}`, ...new Set([...scopes, ...lines]), ''];
}

const american = [
  ['ASME IX', '2021'],
  ['ASME IX', '2019'],
  ['ASME IX', '2017'],
  ['AWS D1.1', '2020'],
  ['AWS D1.1', '2015'],
] as const;
const procedures = [['ISO 15614-1', '2017'], ['ISO 15614-1', '2004'], ...american] as const;
const welders = [['ISO 9606-1', '2012'], ...american] as const;

it('pinned: gives what it gave for the same pieces; a change that is meant is read in the difference and kept', async () => {
  const text = [
    ...procedures.flatMap(([code, edition]) =>
      answersOf(
        `${code}:${edition}, procedures`,
        [{}, ...procedurePieces].map((piece) =>
          suggestProcedureRanges(procedureTest({ ...piece, code, edition })),
        ),
      ),
    ),
    ...welders.flatMap(([code, edition]) =>
      answersOf(
        `${code}:${edition}, welders`,
        [{}, ...welderPieces].map((piece) =>
          suggestWelderRanges(welderTest({ ...piece, code, edition })),
        ),
      ),
    ),
    ...answersOf(
      'ISO 14732:2013, operators',
      [{}, ...operatorPieces].map((piece) =>
        suggestOperatorRanges(operatorTest({ ...piece, code: 'ISO 14732', edition: '2013' })),
      ),
    ),
  ];
  await expect(text.join('\n')).toMatchFileSnapshot('ranges.pinned.txt');
});
