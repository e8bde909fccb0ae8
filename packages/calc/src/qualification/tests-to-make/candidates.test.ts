import { describe, expect, it } from 'vitest';
import { testBook } from './books.js';
import { candidateTests } from './candidates.js';
import type { TestBook, TestConditions, WeldInNeed } from './facts.js';

const demanded: TestConditions = { propertiesDemanded: true, runs: 'multi' };
function book(code: string, edition: string, whom: TestBook['for'] = 'procedures'): TestBook {
  const found = testBook({ code, edition, for: whom });
  if (found === null) throw new Error(`no book for ${code}`);
  return found;
}
const books = {
  iso: book('ISO 15614-1', '2017'),
  aws: book('AWS D1.1', '2020'),
  isoPeople: book('ISO 9606-1', '2012', 'people'),
  asmePeople: book('ASME IX', '2021', 'people'),
  awsPeople: book('AWS D1.1', '2020', 'people'),
};

/** Invented: a butt weld of 12 mm plates of one steel. */
const plate = { group: '1.2', material: 'S355J2', thicknessMm: 12 };
const weld: WeldInNeed = {
  ...{ id: 'w', process: '135', mechanisation: 'partlyMechanised', jointType: 'butt' },
  ...{ position: 'PA', throatMm: null, depositedMm: 12, units: ['B1'] },
  parts: [plate, plate],
};

describe('independent: a test piece for one weld, by hand', () => {
  const at = (of: TestBook, position: string, jointType = 'butt') => {
    const own = {
      ...weld,
      position,
      jointType,
      ...(jointType === 'fillet' ? { throatMm: 4, depositedMm: null } : {}),
    };
    const { tests, notHeld } = candidateTests({ book: of, conditions: demanded, welds: [own] });
    expect(notHeld).toEqual([]);
    return tests.map((test) => test.piece.position).join();
  };
  it('is welded in its own position, where properties bind a procedure to it', () => {
    const plates = ['PA', 'PC', 'PE', 'PF', 'PG'];
    expect(plates.map((position) => at(books.iso, position))).toEqual(plates);
    const fillets = ['PA', 'PB', 'PC', 'PD', 'PE', 'PF', 'PG'];
    expect(fillets.map((position) => at(books.iso, position, 'fillet'))).toEqual(fillets);
  });
  it('is welded in the least position that holds it, for people (ISO 9606-1, Tables 9 and 10)', () => {
    const plates = ['PA', 'PC', 'PE', 'PF', 'PG'];
    expect(plates.map((position) => at(books.isoPeople, position))).toEqual([
      ...['PA', 'PC', 'PE', 'PF', 'PG'],
    ]);
  });
  it('is welded in 1G to 4G for the US codes, by the letter of its position', () => {
    const plates = ['PA', 'PC', 'PF', 'PE'];
    expect(plates.map((position) => at(books.awsPeople, position))).toEqual([
      ...['1G', '2G', '3G up', '4G'],
    ]);
    const asme = plates.map((position) => at(books.asmePeople, position));
    expect(asme).toEqual(['1G', '2G', '3G up', '4G']);
    expect(plates.map((position) => at(books.aws, position))).toEqual([
      ...['1G', '2G', '3G up', '4G'],
    ]);
  });
});
