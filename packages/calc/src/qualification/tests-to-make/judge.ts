import {
  coversMaterialPair,
  coversPNumbers,
  judgeSuggested,
  type RangeVariable,
  type Suggested,
  type SuggestedRanges,
} from '../codes/index.js';
import type { FitResult } from '../answer.js';
import { worstResult } from '../answer.js';
import { usWeldPosition } from '../designations/positions.js';
import { yieldFromName } from '../designations/steel-names.js';
import type {
  NeedVariable,
  PieceMaterial,
  TestBook,
  TestConditions,
  TestToMake,
  WeldInNeed,
} from './facts.js';

/** A test piece with the ranges that its code gives it. */
export interface RangedTest {
  book: TestBook;
  conditions: TestConditions;
  piece: TestToMake;
  /** Null where the code speaks about the piece; else nothing is held. */
  cannotSay: SuggestedRanges['cannotSay'];
  /** The row of a variable; null where the tables on file hold none. */
  row: (variable: RangeVariable) => Suggested | null;
}

export function rangedTest(
  { book, conditions }: Pick<RangedTest, 'book' | 'conditions'>,
  piece: TestToMake,
): RangedTest {
  const { ranges, cannotSay } = book.ranges(piece, conditions);
  const rows = new Map(ranges.map((each) => [each.variable, each]));
  return { book, conditions, piece, cannotSay, row: (variable) => rows.get(variable) ?? null };
}

const plain = (text: string) => text.trim().replace(/\s+/g, ' ').toUpperCase();
const isSame = (a: string, b: string) => plain(a) === plain(b);

/** Where the tables on file hold no row, a test still holds its own value, and nothing beyond it. */
function orOwn(
  suggested: Suggested | null,
  value: number | string | null,
  own: number | string | null,
): FitResult {
  if (suggested !== null) return judgeSuggested(suggested, value);
  return value !== null && value === own ? 'inside' : 'cannotSay';
}

function isSameMetal(a: PieceMaterial, b: PieceMaterial): boolean {
  return isSame(a.group, b.group) && isSame(a.material, b.material);
}

function holdsOwnPair(test: readonly [PieceMaterial, PieceMaterial], weld: WeldInNeed): boolean {
  const [a, b] = weld.parts;
  const [c, d] = test;
  return (isSameMetal(a, c) && isSameMetal(b, d)) || (isSameMetal(a, d) && isSameMetal(b, c));
}

const isSteel = (group: string) => /^([1-9]|1[01])(\.\d+)?$/.test(group.trim());

function material({ book, conditions, piece }: RangedTest, weld: WeldInNeed): FitResult {
  const { materials } = piece;
  // ISO 9606-1 has no parent metal among its variables, but ends at steel.
  if (book.code === 'ISO 9606-1') {
    return weld.parts.every(({ group }) => isSteel(group)) ? 'inside' : 'cannotSay';
  }
  if (materials === null) return 'cannotSay';
  if (holdsOwnPair(materials, weld)) return 'inside';
  const [a, b] = weld.parts;
  if (book.code === 'ISO 15614-1') {
    const graded = ({ group, material: name }: PieceMaterial) => ({
      group,
      yieldMPa: yieldFromName(name),
    });
    return coversMaterialPair({
      test: [graded(materials[0]), graded(materials[1])],
      job: [graded(a), graded(b)],
    });
  }
  // With toughness demanded the Group Number counts too, and the weld list does not hold it.
  if (book.code !== 'ASME IX' || book.for === 'people' || conditions.propertiesDemanded) {
    return 'cannotSay';
  }
  return coversPNumbers({
    test: [materials[0].group, materials[1].group],
    job: [a.group, b.group],
  });
}

function position({ book, piece, row }: RangedTest, weld: WeldInNeed): FitResult {
  const ofFillet = weld.jointType === 'fillet' ? row('filletPosition') : null;
  const suggested = ofFillet ?? row('position');
  if (book.code.startsWith('ISO') || suggested?.answer !== 'list') {
    return orOwn(suggested, weld.position, piece.position);
  }
  const letter = usWeldPosition(weld.position);
  const isListed = letter !== null && suggested.values.includes(letter);
  return isListed ? 'inside' : judgeSuggested(suggested, letter === 'O' ? 'OH' : letter);
}

function thickness({ book, piece, row }: RangedTest, weld: WeldInNeed): FitResult {
  if (book.for === 'people' && book.code === 'ASME IX' && weld.jointType === 'fillet') {
    return 'inside';
  }
  const byDeposit =
    book.for === 'people' && book.code !== 'AWS D1.1' && weld.jointType !== 'fillet';
  const suggested = row(byDeposit ? 'depositedThickness' : 'thickness');
  const values = byDeposit
    ? [weld.depositedMm]
    : weld.parts.map(({ thicknessMm }): number | null => thicknessMm);
  return worstResult(values.map((value) => orOwn(suggested, value, piece.thicknessMm)));
}

const judges: Readonly<Record<NeedVariable, (test: RangedTest, weld: WeldInNeed) => FitResult>> = {
  process: ({ piece, row }, weld) => orOwn(row('process'), weld.process, piece.process),
  mechanisation: ({ piece, row }, weld) =>
    orOwn(row('mechanisation'), weld.mechanisation, piece.mechanisation),
  unit: ({ row }, weld) => {
    const results = weld.units.map((unit) => judgeSuggested(row('unit'), unit));
    if (results.includes('inside')) return 'inside';
    return results.length === 0 ? 'cannotSay' : worstResult(results);
  },
  jointType: ({ piece, row }, weld) => orOwn(row('jointType'), weld.jointType, piece.jointType),
  position,
  materialGroup: material,
  thickness,
  throat: ({ piece, row }, weld) =>
    weld.jointType === 'fillet' ? orOwn(row('throat'), weld.throatMm, piece.throatMm) : 'inside',
};

/** Does the test piece hold the weld by these variables? Only what is surely inside counts. */
export function holds(
  test: RangedTest,
  weld: WeldInNeed,
  variables: readonly NeedVariable[],
): boolean {
  return firstMissed(test, weld, variables) === null;
}

/** The first of the variables that is not surely inside; null when all are. */
export function firstMissed(
  test: RangedTest,
  weld: WeldInNeed,
  variables: readonly NeedVariable[],
): NeedVariable | null {
  const { book, cannotSay } = test;
  if (book.mechanisations !== null && !book.mechanisations.includes(weld.mechanisation)) {
    return 'mechanisation';
  }
  const asked = variables.filter((variable) => book.variables.includes(variable));
  if (cannotSay !== null) return asked[0] ?? null;
  return asked.find((variable) => judges[variable](test, weld) !== 'inside') ?? null;
}
