import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { testBook, testBooks } from './books.js';
import { candidateTests } from './candidates.js';
import { greedyCover, heldWeight, mergedCover } from './cover.js';
import type { NeedVariable, TestBook, TestConditions, TestToMake, WeldInNeed } from './facts.js';
import { holds, rangedTest } from './judge.js';

const freely: TestConditions = { propertiesDemanded: false, runs: 'multi' };
const unknown: TestConditions = { propertiesDemanded: true, runs: 'unknown' };

/** An invented fillet between two plates of one steel. */
function weld(
  id: string,
  given: Partial<WeldInNeed> & { mm?: number; material?: string } = {},
): WeldInNeed {
  const { mm = 8, material = 'S355J2', ...rest } = given;
  const part = { group: '1.2', material, thicknessMm: mm };
  return {
    ...{ id, process: '135', mechanisation: 'partlyMechanised', jointType: 'fillet' },
    ...{ position: 'PB', parts: [part, part], throatMm: 4, depositedMm: null, units: ['B1'] },
    ...rest,
  };
}

function book(code: string, edition: string, whom: TestBook['for'] = 'procedures'): TestBook {
  const found = testBook({ code, edition, for: whom });
  if (found === null) throw new Error(`no book for ${code}`);
  return found;
}

const iso = book('ISO 15614-1', '2017');
const welders = book('ISO 9606-1', '2012', 'people');

describe('independent: test pieces for procedures to ISO 15614-1:2017, worked by hand from its tables', () => {
  it('proposes nothing for nothing', () => {
    expect(candidateTests({ book: iso, conditions: freely, welds: [] })).toEqual({
      tests: [],
      notHeld: [],
    });
  });

  it('holds fillets of 5 to 8 mm with a piece of 8 mm: from 0.5 t = 4 mm to 1.2 t = 9.6 mm', () => {
    const welds = [weld('5', { mm: 5 }), weld('8', { mm: 8 })];
    const { tests, notHeld } = candidateTests({ book: iso, conditions: freely, welds });
    expect(notHeld).toEqual([]);
    expect(tests.map(({ piece, welds: held }) => [piece.thicknessMm, held])).toEqual([[8, [0, 1]]]);
  });

  it('reaches further by the step of 30 mm: 5 mm and more', () => {
    const welds = [weld('6', { mm: 6 }), weld('25', { mm: 25 })];
    const { tests } = candidateTests({ book: iso, conditions: freely, welds });
    expect(tests.map(({ piece, welds: held }) => [piece.thicknessMm, held])).toEqual([
      [30, [0, 1]],
    ]);
  });

  it('takes the higher yield for both steels, as groups 1 to 3 ask for an equal or lower one', () => {
    const welds = [weld('a', { material: 'S235JR' }), weld('b', { material: 'S355J2' })];
    const { tests } = candidateTests({ book: iso, conditions: freely, welds });
    expect(tests.map(({ piece }) => piece.materials?.[0].material)).toEqual(['S355J2']);
  });

  it('keeps to its own position once properties are demanded', () => {
    const welds = [weld('PB'), weld('PF', { position: 'PF' }), weld('PG', { position: 'PG' })];
    const held = (conditions: TestConditions) =>
      candidateTests({ book: iso, conditions, welds }).tests.map((test) => test.welds);
    expect(held(freely)).toEqual([[0, 1], [2]]);
    expect(held(unknown)).toEqual([[0], [1], [2]]);
  });

  it('judges a throat by the row of one run where the number of runs is not known', () => {
    const welds = [weld('a3', { throatMm: 3 }), weld('a6', { throatMm: 6 })];
    const count = (runs: TestConditions['runs']) =>
      candidateTests({ book: iso, conditions: { propertiesDemanded: false, runs }, welds }).tests
        .length;
    // 0.75 a to 1.5 a: neither 3 nor 6 holds the other.
    expect(['multi', 'single', 'unknown'].map((runs) => count(runs as 'multi'))).toEqual([1, 2, 2]);
  });

  it.each<[string, Partial<WeldInNeed> & { material?: string; mm?: number }, NeedVariable]>([
    ['a lap joint', { jointType: 'lap' }, 'jointType'],
    ['a fillet without a size', { throatMm: null }, 'throat'],
  ])('%s is held by none', (_, given, variable) => {
    const welds = [weld('x', given)];
    expect(candidateTests({ book: iso, conditions: freely, welds })).toEqual({
      tests: [],
      notHeld: [{ weldId: 'x', variable }],
    });
  });

  it('holds no aluminium, and steel beside it all the same', () => {
    const part = { group: '22.3', material: 'AW-5083', thicknessMm: 8 };
    const welds = [weld('aluminium', { parts: [part, part] }), weld('steel')];
    const { tests, notHeld } = candidateTests({ book: iso, conditions: freely, welds });
    expect(tests.map((test) => test.welds)).toEqual([[1]]);
    expect(notHeld.map(({ weldId }) => weldId)).toEqual(['aluminium']);
  });
});

describe('independent: test pieces for people, worked by hand from the tables', () => {
  it('ISO 9606-1: a fillet in PF holds PA, PB and PF, from 3 mm up, by Tables 8 and 10', () => {
    const welds = [
      weld('PB'),
      weld('PF', { position: 'PF', mm: 3 }),
      weld('PG', { position: 'PG' }),
    ];
    const { tests } = candidateTests({ book: welders, conditions: unknown, welds });
    expect(tests.map(({ piece, welds: held }) => [piece.position, held])).toEqual([
      ['PF', [0, 1]],
      ['PG', [2]],
    ]);
  });

  it('ISO 9606-1: solid wire stands for metal-cored, and nothing for a robot', () => {
    const robot = { mechanisation: 'fullyMechanised', units: ['R1'] };
    const welds = [weld('135'), weld('138', { process: '138' }), weld('robot', robot)];
    const { tests, notHeld } = candidateTests({ book: welders, conditions: unknown, welds });
    expect(tests.map((test) => test.welds)).toEqual([[0, 1]]);
    expect(notHeld).toEqual([{ weldId: 'robot', variable: 'mechanisation' }]);
  });

  it('ISO 14732: bound to the cell; a weld that may go to either is held by one of them', () => {
    const at = (id: string, ...units: string[]) =>
      weld(id, { mechanisation: 'fullyMechanised', units });
    const welds = [at('R1', 'R1'), at('R2', 'R2'), at('either', 'R1', 'R2'), weld('booth')];
    const operators = book('ISO 14732', '2013', 'people');
    const { tests, notHeld } = candidateTests({ book: operators, conditions: unknown, welds });
    expect(tests.map(({ piece, welds: held }) => [piece.unit, held])).toEqual([
      ['R1', [0, 2]],
      ['R2', [1, 2]],
    ]);
    expect(notHeld.map(({ weldId }) => weldId)).toEqual(['booth']);
  });

  it('AWS D1.1: 3G on 25 mm holds flat, horizontal and vertical of every thickness from 3 mm', () => {
    const butt = { jointType: 'butt', throatMm: null, depositedMm: 12, mm: 12 };
    const welds = [
      weld('PA', { ...butt, position: 'PA' }),
      weld('PF', { ...butt, position: 'PF' }),
      weld('fillet', { mm: 40 }),
    ];
    const aws = book('AWS D1.1', '2020', 'people');
    const { tests } = candidateTests({ book: aws, conditions: unknown, welds });
    expect(
      tests.map(({ piece, welds: held }) => [piece.position, piece.thicknessMm, held]),
    ).toEqual([['3G up', 25, [0, 1, 2]]]);
  });
});

const positions = ['PA', 'PB', 'PC', 'PE', 'PF', 'PG'];
const someWelds = fc
  .array(
    fc.record({
      process: fc.constantFrom('135', '138', '111'),
      jointType: fc.constantFrom('butt', 'fillet', 'lap'),
      position: fc.constantFrom(...positions),
      mm: fc.constantFrom(2, 3, 5, 8, 12, 16, 30, 45),
      otherMm: fc.constantFrom(3, 6, 10, 20),
      throatMm: fc.constantFrom(null, 3, 4, 6, 9),
      material: fc.constantFrom('S235JR', 'S355J2', 'plate', 'P1 plate'),
      group: fc.constantFrom('1.1', '1.2', '8.1', 'P1', '22.3'),
      robot: fc.boolean(),
    }),
    { maxLength: 5 },
  )
  .map((rows) =>
    rows.map(({ mm, otherMm, material, group, robot, ...row }, at): WeldInNeed => ({
      ...row,
      id: String(at),
      mechanisation: robot ? 'fullyMechanised' : 'partlyMechanised',
      parts: [
        { group, material, thicknessMm: mm },
        { group: '1.1', material: 'S235JR', thicknessMm: otherMm },
      ],
      depositedMm: row.jointType === 'butt' ? Math.min(mm, otherMm) : null,
      units: robot ? ['R1', 'R2'].slice(0, (at % 2) + 1) : ['B1'],
    })),
  );
const someConditions = fc.record({
  propertiesDemanded: fc.boolean(),
  runs: fc.constantFrom('single' as const, 'multi' as const, 'unknown' as const),
});

/** Every pairing of every value, without thought for which of them matter. */
function everyPiece(welds: readonly WeldInNeed[], { positions: named, stepsMm }: TestBook) {
  const of = <T>(values: readonly T[]) => [...new Set(values)];
  const metals = welds.map(({ parts }) => parts);
  const pieces: TestToMake[] = [];
  for (const { process, mechanisation } of welds)
    for (const unit of of(welds.flatMap(({ units }) => units)))
      for (const jointType of ['butt', 'fillet'])
        for (const position of named[jointType] ?? [])
          for (const materials of metals)
            for (const thicknessMm of of([
              ...welds.flatMap(({ parts }) => parts.map((part) => part.thicknessMm)),
              ...(stepsMm[jointType] ?? []),
            ]))
              for (const throatMm of jointType === 'butt'
                ? [null]
                : of(welds.map((each) => each.throatMm)))
                pieces.push({
                  ...{ process, mechanisation, unit, jointType, position, materials },
                  ...{ thicknessMm, throatMm },
                });
  return pieces;
}

describe('independent: candidates against every pairing of values, each derived and judged whole', () => {
  it.each(testBooks.map((each) => [`${each.code}:${each.edition} for ${each.for}`, each] as const))(
    '%s',
    (_, of) => {
      fc.assert(
        fc.property(someWelds, someConditions, (all, conditions) => {
          const welds = all.slice(0, 2);
          const { tests, notHeld } = candidateTests({ book: of, conditions, welds });
          const heldBy = (piece: TestToMake) => {
            const test = rangedTest({ book: of, conditions }, piece);
            return welds.flatMap((each, at) => (holds(test, each, of.variables) ? [at] : []));
          };
          for (const { piece, welds: held } of tests) expect(heldBy(piece)).toEqual(held);
          for (const piece of everyPiece(welds, of)) {
            const held = heldBy(piece);
            if (held.length === 0) continue;
            expect(tests.some((test) => held.every((at) => test.welds.includes(at)))).toBe(true);
          }
          const shown = new Set(tests.flatMap((test) => test.welds.map((at) => welds[at]?.id)));
          expect(notHeld.map(({ weldId }) => weldId)).toEqual(
            welds.map(({ id }) => id).filter((id) => !shown.has(id)),
          );
        }),
        { numRuns: 20 },
      );
    },
  );

  it('holds plates of 10 and 30 mm with a piece of 20 mm, a thickness that only a weld of another kind has', () => {
    const butt = { process: '135', jointType: 'butt', position: 'PA', throatMm: null };
    const plates = (...mm: readonly [number, number]): WeldInNeed['parts'] => [
      { group: '1.1', material: 'S235JR', thicknessMm: mm[0] },
      { group: '1.1', material: 'S235JR', thicknessMm: mm[1] },
    ];
    const welds: WeldInNeed[] = [
      {
        ...{ ...butt, id: 'booth', mechanisation: 'partlyMechanised', units: ['B1'] },
        ...{ parts: plates(30, 10), depositedMm: 10 },
      },
      {
        ...{ ...butt, id: 'robot', mechanisation: 'fullyMechanised', units: ['R1'] },
        ...{ parts: plates(2, 20), depositedMm: 2 },
      },
    ];
    const conditions = { propertiesDemanded: false, runs: 'multi' } as const;
    // Table 7, several runs: 20 mm holds from 10 to 40 mm.
    expect(candidateTests({ book: iso, conditions, welds }).tests).toContainEqual(
      expect.objectContaining({ welds: [0] }),
    );
  });

  it('what one run is judged by lies within what several are', () => {
    fc.assert(
      fc.property(someWelds, fc.boolean(), (welds, propertiesDemanded) => {
        const held = (runs: TestConditions['runs']) =>
          candidateTests({ book: iso, conditions: { propertiesDemanded, runs }, welds });
        const several = held('multi').tests;
        for (const { welds: narrow } of held('unknown').tests) {
          expect(several.some((test) => narrow.every((at) => test.welds.includes(at)))).toBe(true);
        }
      }),
    );
  });
});

const someSets = fc.array(fc.uniqueArray(fc.nat(7), { maxLength: 5 }), { maxLength: 6 });

describe('independent: covers against every choice and a count by hand', () => {
  it('takes places together that the same sets hold', () => {
    expect(
      mergedCover({
        places: 5,
        sets: [
          [0, 1, 2],
          [2, 3],
        ],
      }),
    ).toEqual({
      sets: [
        [0, 1],
        [1, 2],
      ],
      weights: [2, 1, 1],
    });
  });

  it('merging changes no weight, and the greedy choice holds its share of the best', () => {
    fc.assert(
      fc.property(someSets, fc.integer({ min: 1, max: 3 }), (sets, most) => {
        const merged = mergedCover({ places: 8, sets });
        const choices = Array.from({ length: 2 ** sets.length }, (_, mask) =>
          [...sets.keys()].filter((at) => (mask >> at) % 2 === 1),
        );
        const plainly = (chosen: readonly number[]) =>
          new Set(chosen.flatMap((at) => sets[at] ?? [])).size;
        for (const chosen of choices) expect(heldWeight(merged, chosen)).toBe(plainly(chosen));
        const all = plainly([...sets.keys()]);
        expect(heldWeight(merged, greedyCover(merged))).toBe(all);
        const best = Math.max(
          ...choices.filter(({ length }) => length <= most).map((each) => plainly(each)),
        );
        const greedy = greedyCover(merged, most);
        expect(greedy.length).toBeLessThanOrEqual(most);
        expect(heldWeight(merged, greedy)).toBeGreaterThanOrEqual((1 - 1 / Math.E) * best);
      }),
    );
  });
});
