import { describe, expect, it } from 'vitest';
import { testBook } from './books.js';
import type { NeedVariable, TestBook, TestConditions, TestToMake, WeldInNeed } from './facts.js';
import { firstMissed, rangedTest } from './judge.js';

const freely: TestConditions = { propertiesDemanded: false, runs: 'multi' };
const demanded: TestConditions = { propertiesDemanded: true, runs: 'multi' };
function book(code: string, edition: string, whom: TestBook['for'] = 'procedures'): TestBook {
  const found = testBook({ code, edition, for: whom });
  if (found === null) throw new Error(`no book for ${code}`);
  return found;
}
const books = {
  iso: book('ISO 15614-1', '2017'),
  asme: book('ASME IX', '2021'),
  aws: book('AWS D1.1', '2020'),
  isoPeople: book('ISO 9606-1', '2012', 'people'),
  asmePeople: book('ASME IX', '2021', 'people'),
  awsPeople: book('AWS D1.1', '2020', 'people'),
  operators: book('ISO 14732', '2013', 'people'),
};

const metal = (group: string, material = 'S355J2') => ({ group, material });
/** Invented: a butt weld of 12 mm plates of one steel, and a piece like it. */
const weld: WeldInNeed = {
  ...{ id: 'w', process: '135', mechanisation: 'partlyMechanised', jointType: 'butt' },
  ...{ position: 'PA', throatMm: null, depositedMm: 12, units: ['B1'] },
  parts: [
    { ...metal('1.2'), thicknessMm: 12 },
    { ...metal('1.2'), thicknessMm: 12 },
  ],
};
const piece: TestToMake = {
  ...{ process: '135', mechanisation: 'partlyMechanised', jointType: 'butt', position: 'PA' },
  ...{ materials: [metal('1.2'), metal('1.2')], thicknessMm: 12, throatMm: null, unit: 'B1' },
};

type Metals = readonly [ReturnType<typeof metal>, ReturnType<typeof metal>];
const joining = ([a, b]: Metals): Partial<WeldInNeed> => ({
  parts: [
    { ...a, thicknessMm: 12 },
    { ...b, thicknessMm: 12 },
  ],
});

interface Case {
  of: TestBook;
  piece?: Partial<TestToMake>;
  weld?: Partial<WeldInNeed>;
  conditions?: TestConditions;
}
function misses(
  variable: NeedVariable,
  { of, piece: ofPiece = {}, weld: ofWeld = {}, conditions = freely }: Case,
): boolean {
  const test = rangedTest({ book: of, conditions }, { ...piece, ...ofPiece });
  return firstMissed(test, { ...weld, ...ofWeld }, [variable]) !== null;
}

const aluminium = metal('22.3', 'AW-5083');
const p1 = metal('P1', 'SA-516');
const p4 = metal('P4', 'SA-387');
/** Groups that the table of pairs of ISO 15614-1 does not list. */
const mixed: Metals = [metal('6.1', 'X'), metal('7.1', 'Y z')];

describe('independent: parent metals held by a test piece, by hand from the rule of each code', () => {
  it.each<[string, boolean, Case]>([
    ['its own pair', false, { of: books.iso, piece: { materials: mixed }, weld: joining(mixed) }],
    [
      'its own pair the other way round',
      false,
      { of: books.iso, piece: { materials: mixed }, weld: joining([mixed[1], mixed[0]]) },
    ],
    [
      'its own pair in other letters and spaces',
      false,
      {
        of: books.iso,
        piece: { materials: [metal(' 6.1', 'x '), metal('7.1', 'y  Z')] },
        weld: joining(mixed),
      },
    ],
    [
      'not one half of it twice',
      true,
      { of: books.iso, piece: { materials: mixed }, weld: joining([mixed[0], mixed[0]]) },
    ],
    [
      'not another metal of the group',
      true,
      {
        of: books.iso,
        piece: { materials: [mixed[0], mixed[0]] },
        weld: joining([mixed[0], metal('6.1', 'Z')]),
      },
    ],
    [
      'ISO 15614-1, a lower yield',
      false,
      { of: books.iso, weld: joining([metal('1.1', 'S235JR'), metal('1.1', 'S235JR')]) },
    ],
    [
      'ISO 15614-1, a higher yield',
      true,
      { of: books.iso, weld: joining([metal('1.2', 'S460N'), metal('1.2')]) },
    ],
    [
      'ISO 9606-1, any steel',
      false,
      { of: books.isoPeople, weld: joining([metal('8.1', '1.4301'), metal(' 11.1 ', 'P1 plate')]) },
    ],
    [
      'ISO 9606-1, a long sub-group',
      false,
      { of: books.isoPeople, weld: joining([metal('10.12', 'x'), metal('9', 'x')]) },
    ],
    [
      'ISO 9606-1, no aluminium beside steel',
      true,
      { of: books.isoPeople, weld: joining([metal('1.2'), aluminium]) },
    ],
    [
      'ISO 9606-1, no group 12',
      true,
      { of: books.isoPeople, weld: joining([metal('12.1'), metal('12.1')]) },
    ],
    [
      'ASME IX, one P-Number for another metal of it',
      false,
      { of: books.asme, piece: { materials: [p1, p1] }, weld: joining([p1, metal('P1', 'SA-36')]) },
    ],
    [
      'ASME IX, P4 for P4 to P1',
      false,
      { of: books.asme, piece: { materials: [p4, p4] }, weld: joining([metal('P1', 'SA-36'), p4]) },
    ],
    [
      'ASME IX, not P1 for P4',
      true,
      { of: books.asme, piece: { materials: [p1, p1] }, weld: joining([p4, p4]) },
    ],
    [
      'ASME IX, not by P-Numbers where toughness is demanded',
      true,
      {
        of: books.asme,
        conditions: demanded,
        piece: { materials: [p4, p4] },
        weld: joining([p1, p1]),
      },
    ],
    [
      'ASME IX, its own pair where toughness is demanded',
      false,
      {
        of: books.asme,
        conditions: demanded,
        piece: { materials: [p4, p4] },
        weld: joining([p4, p4]),
      },
    ],
    [
      'ASME IX, not by P-Numbers for people',
      true,
      { of: books.asmePeople, piece: { materials: [p4, p4] }, weld: joining([p1, p1]) },
    ],
    [
      'AWS D1.1, its own metal alone',
      true,
      { of: books.aws, piece: { materials: [p4, p4] }, weld: joining([p1, p1]) },
    ],
    [
      'AWS D1.1, its own metal',
      false,
      { of: books.aws, piece: { materials: [p4, p4] }, weld: joining([p4, p4]) },
    ],
    [
      'no metal of the piece',
      true,
      { of: books.aws, piece: { materials: null }, weld: joining([p4, p4]) },
    ],
  ])('%s (missed: %s)', (_, isMissed, each) => {
    expect(misses('materialGroup', each)).toBe(isMissed);
  });
});

describe('independent: positions, thickness and units held by a test piece, by hand', () => {
  const fillet = { jointType: 'fillet', throatMm: 4, depositedMm: null };
  it.each<[string, boolean, Case]>([
    [
      'AWS D1.1 people, 3G for vertical',
      false,
      { of: books.awsPeople, piece: { position: '3G up' }, weld: { position: 'PF' } },
    ],
    [
      'AWS D1.1 people, 3G for horizontal',
      false,
      { of: books.awsPeople, piece: { position: '3G up' }, weld: { position: 'PC' } },
    ],
    [
      'AWS D1.1 people, 3G not for overhead',
      true,
      { of: books.awsPeople, piece: { position: '3G up' }, weld: { position: 'PE' } },
    ],
    [
      'AWS D1.1 people, 4G for overhead',
      false,
      { of: books.awsPeople, piece: { position: '4G' }, weld: { position: 'PE' } },
    ],
    [
      'AWS D1.1 people, 4G not for a horizontal groove',
      true,
      { of: books.awsPeople, piece: { position: '4G' }, weld: { position: 'PC' } },
    ],
    [
      'AWS D1.1 people, 4G for a horizontal fillet',
      false,
      { of: books.awsPeople, piece: { position: '4G' }, weld: { ...fillet, position: 'PB' } },
    ],
    [
      'AWS D1.1 people, nothing for downward',
      true,
      { of: books.awsPeople, piece: { position: '3G up' }, weld: { position: 'PG' } },
    ],
    [
      'AWS D1.1 procedures, 3G not for flat',
      true,
      { of: books.aws, piece: { position: '3G up' }, weld: { position: 'PA' } },
    ],
    [
      'AWS D1.1 procedures, 3G for vertical',
      false,
      { of: books.aws, piece: { position: '3G up' }, weld: { position: 'PF' } },
    ],
    [
      'ISO 9606-1, PF for PA',
      false,
      { of: books.isoPeople, piece: { position: 'PF' }, weld: { position: 'PA' } },
    ],
    [
      'ISO 9606-1, PF not for PC',
      true,
      { of: books.isoPeople, piece: { position: 'PF' }, weld: { position: 'PC' } },
    ],
  ])('%s (missed: %s)', (_, isMissed, each) => {
    expect(misses('position', each)).toBe(isMissed);
  });

  it.each<[string, boolean, Case]>([
    ['ISO 15614-1, 12 mm for 24 mm', false, { of: books.iso, weld: joinMm(24, 12) }],
    [
      'ISO 15614-1, 12 mm not for 25 mm beside 12 mm',
      true,
      { of: books.iso, weld: joinMm(12, 25) },
    ],
    [
      'ISO 9606-1, 12 mm laid for any butt of 3 mm',
      false,
      { of: books.isoPeople, weld: { depositedMm: 50 } },
    ],
    ['ISO 9606-1, not for 2 mm', true, { of: books.isoPeople, weld: { depositedMm: 2 } }],
    [
      'ISO 9606-1, nothing for metal that is not told',
      true,
      { of: books.isoPeople, weld: { depositedMm: null } },
    ],
    [
      'ISO 9606-1, 8 mm laid not for 17 mm',
      true,
      { of: books.isoPeople, piece: { thicknessMm: 8 }, weld: { depositedMm: 17 } },
    ],
    [
      'ISO 9606-1, 8 mm laid for 16 mm',
      false,
      { of: books.isoPeople, piece: { thicknessMm: 8 }, weld: { depositedMm: 16 } },
    ],
    [
      'ASME IX people, any fillet',
      false,
      { of: books.asmePeople, piece: { thicknessMm: 3 }, weld: { ...fillet, ...joinMm(80, 90) } },
    ],
    [
      'ASME IX people, 13 mm laid for any butt',
      false,
      { of: books.asmePeople, piece: { thicknessMm: 13 }, weld: { depositedMm: 90 } },
    ],
    [
      'ASME IX people, 10 mm laid not for 21 mm',
      true,
      { of: books.asmePeople, piece: { thicknessMm: 10 }, weld: { depositedMm: 21 } },
    ],
    [
      'AWS D1.1 people, by the plates: 25 mm for all from 3 mm',
      false,
      {
        of: books.awsPeople,
        piece: { thicknessMm: 25 },
        weld: { ...joinMm(3, 90), depositedMm: 1 },
      },
    ],
    ['AWS D1.1 people, 12 mm not for 25 mm', true, { of: books.awsPeople, weld: joinMm(25, 12) }],
  ])('%s (missed: %s)', (_, isMissed, each) => {
    expect(misses('thickness', each)).toBe(isMissed);
  });

  it('ISO 14732: the cell of the test, one of several where there is a choice', () => {
    const machine = { mechanisation: 'automatic', unit: 'R1' };
    const at = (...units: string[]) =>
      misses('unit', {
        ...{ of: books.operators, piece: machine },
        weld: { mechanisation: 'automatic', units },
      });
    expect([at('R1'), at('R2'), at('R2', 'R1'), at()]).toEqual([false, true, false, true]);
  });

  it('a throat counts on fillets alone, and none is held that is not told', () => {
    const throat = (throatMm: number | null, jointType = 'fillet') =>
      misses('throat', {
        ...{ of: books.iso, piece: { jointType: 'fillet', throatMm: 4 } },
        ...{ weld: { jointType, throatMm }, conditions: { ...freely, runs: 'single' } },
      });
    // One run: 0.75 a to 1.5 a.
    expect([2.9, 3, 6, 6.1, null].map((mm) => throat(mm))).toEqual([
      true,
      false,
      false,
      true,
      true,
    ]);
    expect(throat(null, 'butt')).toBe(false);
  });
});

function joinMm(a: number, b: number): Partial<WeldInNeed> {
  return {
    parts: [
      { ...metal('1.2'), thicknessMm: a },
      { ...metal('1.2'), thicknessMm: b },
    ],
  };
}

describe('a book without rows', () => {
  const silent: TestBook = {
    ...books.iso,
    ranges: () => ({ code: null, edition: null, cannotSay: null, ranges: [] }),
  };
  it.each<[NeedVariable, Partial<WeldInNeed>]>([
    ['process', { process: '136' }],
    ['mechanisation', { mechanisation: 'automatic' }],
    ['jointType', { jointType: 'fillet' }],
    ['position', { position: 'PC' }],
    ['thickness', joinMm(12, 13)],
  ])('holds its own %s and no other', (variable, other) => {
    expect(misses(variable, { of: silent })).toBe(false);
    expect(misses(variable, { of: silent, weld: other })).toBe(true);
  });
  it('holds no throat where none is told on either side', () => {
    expect(misses('throat', { of: silent, weld: { jointType: 'fillet' } })).toBe(true);
  });
  it('holds nothing where the code does not speak about the piece, nor another mechanisation', () => {
    const words = { reason: 'outOfScope', words: 'none' } as const;
    const mute: TestBook = {
      ...silent,
      ranges: () => ({ code: null, edition: null, cannotSay: words, ranges: [] }),
    };
    const missed = (of: TestBook, variables: readonly NeedVariable[]) =>
      firstMissed(rangedTest({ book: of, conditions: freely }, piece), weld, variables);
    expect(missed(mute, ['thickness', 'position'])).toBe('thickness');
    expect(missed(mute, ['unit'])).toBe(null);
    expect(missed(silent, ['unit', 'process', 'thickness'])).toBe(null);
    expect(missed({ ...silent, mechanisations: ['manual'] }, ['process'])).toBe('mechanisation');
  });
});
