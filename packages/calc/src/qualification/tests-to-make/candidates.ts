import { bitsOf, indicesOf, withoutDominated, type Bits } from './bits.js';
import type {
  NeedVariable,
  PieceMaterial,
  TestBook,
  TestConditions,
  TestToMake,
  WeldInNeed,
} from './facts.js';
import { firstMissed, holds, rangedTest } from './judge.js';

interface Asked {
  book: TestBook;
  conditions: TestConditions;
  welds: readonly WeldInNeed[];
}

/** A test piece with the welds it would hold, by their place in the list. */
export interface CandidateTest {
  piece: TestToMake;
  welds: readonly number[];
}

/** A weld that no test piece holds for sure, and the variable at which even a piece like itself misses. */
export interface NotHeld {
  weldId: string;
  variable: NeedVariable;
}

export interface CandidateTests {
  tests: readonly CandidateTest[];
  notHeld: readonly NotHeld[];
}

/** What is varied together; each group's rows read the values of its own group and of the piece's kind alone. */
const kind = ['process', 'mechanisation', 'unit', 'jointType'] as const;
const size = ['thickness', 'throat'] as const;

type Choice = Partial<TestToMake>;

function unique<T>(values: readonly T[]): T[] {
  const byText = new Map(values.map((value) => [JSON.stringify(value), value]));
  return [...byText.values()];
}

const metalsOf = ({ parts }: WeldInNeed): readonly [PieceMaterial, PieceMaterial] => {
  const metal = ({ group, material }: PieceMaterial) => ({ group, material });
  return [metal(parts[0]), metal(parts[1])];
};

const fillet = 'fillet';

function ownSizes(weld: WeldInNeed, jointType: string): number[] {
  const parts = weld.parts.map(({ thicknessMm }) => thicknessMm);
  return jointType === 'butt' && weld.depositedMm !== null ? [...parts, weld.depositedMm] : parts;
}

/** A piece as close to a weld as the code allows. */
function ownPiece(weld: WeldInNeed, { book }: Asked): TestToMake {
  const { process, mechanisation, jointType, throatMm } = weld;
  const positions = book.positions[jointType] ?? [];
  const own = positions.includes(weld.position) ? weld.position : (positions[0] ?? weld.position);
  return {
    ...{ process, mechanisation, jointType, throatMm, position: own, materials: metalsOf(weld) },
    thicknessMm: weld.depositedMm ?? weld.parts[0].thicknessMm,
    unit: weld.units[0] ?? null,
  };
}

/** Kinds of test piece: those of the welds, and a butt where it may stand for a fillet. */
function kindsOf(asked: Asked): TestToMake[] {
  const { book, welds } = asked;
  const pieces = welds.flatMap((weld) => {
    const own = ownPiece(weld, asked);
    const isAsked = book.variables.includes('jointType');
    const kinds = book.joints.filter(
      (joint) => !isAsked || joint === own.jointType || joint === 'butt',
    );
    const units = book.variables.includes('unit') ? weld.units : [null];
    return kinds.flatMap((jointType) =>
      units.map((unit) => ({
        ...{ process: own.process, mechanisation: own.mechanisation, jointType, unit },
      })),
    );
  });
  return unique(pieces)
    .toSorted((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1))
    .map((piece) => ({
      ...{ ...piece, position: book.positions[piece.jointType]?.[0] ?? 'PA', materials: null },
      ...{ thicknessMm: null, throatMm: null },
    }));
}

function sizesOf(base: TestToMake, welds: readonly WeldInNeed[], book: TestBook): Choice[] {
  if (!book.variables.includes('thickness')) return [{}];
  const { jointType } = base;
  const own = welds.flatMap((weld) => ownSizes(weld, jointType));
  // Thinner ones first: of pieces that hold the same, the first is kept.
  const all = [...new Set([...own, ...(book.stepsMm[jointType] ?? [])])];
  const thicknesses = all.toSorted((a, b) => a - b);
  const throats =
    jointType === fillet && book.variables.includes('throat')
      ? [...new Set(welds.flatMap(({ throatMm }) => throatMm ?? []))].toSorted((a, b) => a - b)
      : [null];
  return thicknesses.flatMap((thicknessMm) =>
    throats.map((throatMm) => ({ thicknessMm, throatMm })),
  );
}

interface Held {
  choice: Choice;
  bits: Bits;
}

/**
 * The pieces of one kind: every pairing of positions, metals and sizes that none other makes needless. Metals and sizes
 * are those of all the welds: what another weld is made of may hold a weld that nothing of its own would.
 */
function piecesOfKind(asked: Asked, base: TestToMake): { piece: TestToMake; bits: Bits }[] {
  const { book, welds } = asked;
  const heldBy = (choice: Choice, variables: readonly NeedVariable[], among: readonly number[]) => {
    const test = rangedTest(asked, { ...base, ...choice });
    return bitsOf(among.filter((at) => holds(test, welds[at] as WeldInNeed, variables)));
  };
  const within = indicesOf(heldBy({}, kind, [...welds.keys()]));
  const axis = (choices: readonly Choice[], variables: readonly NeedVariable[]): Held[] =>
    withoutDominated(
      choices.map((choice) => ({ choice, bits: heldBy(choice, variables, within) })),
    );
  const positions = book.positions[base.jointType] ?? [];
  const axes = [
    axis(
      positions.map((position) => ({ position })),
      ['position'],
    ),
    axis(
      unique(welds.map(metalsOf)).map((materials) => ({ materials })),
      ['materialGroup'],
    ),
    axis(sizesOf(base, welds, book), size),
  ];
  const paired = axes.reduce<Held[]>(
    (before, after) =>
      withoutDominated(
        before.flatMap((a) =>
          after.map((b) => ({ choice: { ...a.choice, ...b.choice }, bits: a.bits & b.bits })),
        ),
      ),
    [{ choice: {}, bits: bitsOf(within) }],
  );
  return paired.map(({ choice, bits }) => ({ piece: { ...base, ...choice }, bits }));
}

/**
 * Every test piece under one code and edition that is worth a thought for these welds, each with the welds it would
 * surely hold by what the weld list tells. Values come from the welds themselves and from the steps of the code's
 * tables; a piece that holds no more than another is left out. The same welds give the same pieces.
 */
export function candidateTests(asked: Asked): CandidateTests {
  const pieces = kindsOf(asked).flatMap((base) => piecesOfKind(asked, base));
  const tests = withoutDominated(pieces).map(({ piece, bits }) => ({
    piece,
    welds: indicesOf(bits),
  }));
  const held = new Set(tests.flatMap(({ welds }) => welds));
  const notHeld = asked.welds.flatMap((weld, at): NotHeld[] =>
    held.has(at) ? [] : [{ weldId: weld.id, variable: missedBy(asked, weld) }],
  );
  return { tests, notHeld };
}

function missedBy(asked: Asked, weld: WeldInNeed): NeedVariable {
  const { variables, joints } = asked.book;
  if (variables.includes('jointType') && !joints.includes(weld.jointType)) return 'jointType';
  const test = rangedTest(asked, ownPiece(weld, asked));
  return firstMissed(test, weld, variables) ?? 'thickness';
}
