import { describe, expect, it } from 'vitest';
import { coveragePicture, type Holder, type NeededWeld } from './coverage-picture.js';

/** Invented holders and welds. */
const holder = (id: string, given: Partial<Holder> = {}): Holder => ({
  id,
  kind: 'procedure',
  processes: ['135'],
  positions: ['PA', 'PB'],
  thicknessMm: { min: 3, max: 12 },
  ...given,
});
const need = (id: string, given: Partial<NeededWeld> = {}): NeededWeld => ({
  id,
  process: '135',
  position: 'PB',
  thicknessesMm: [6],
  ...given,
});
const person = holder('W07', { kind: 'person', thicknessMm: { min: 3, max: null } });

describe('independent: the picture of coverage, against cells worked by hand', () => {
  const welds = [
    need('a'),
    need('b', { thicknessesMm: [3, 3] }),
    need('c', { thicknessesMm: [6, 20] }),
  ];
  const [picture] = coveragePicture({ holders: [holder('P1'), person], welds });
  const cell = (position: string, fromMm: number | null) =>
    picture?.cells.find((each) => each.position === position && each.fromMm === fromMm);

  it('runs its steps between the limits on file', () => {
    expect(picture?.positions).toEqual(['PA', 'PB']);
    expect(picture?.cells.map(({ fromMm, toMm }) => [fromMm, toMm]).slice(0, 3)).toEqual([
      [null, 3],
      [3, 12],
      [12, null],
    ]);
  });
  it('shows who holds a step whole, which welds fall in it and what is lacking', () => {
    expect(cell('PB', 3)).toMatchObject({
      procedures: ['P1'],
      people: ['W07'],
      welds: ['a'],
      withoutProcedure: [],
      withoutPerson: [],
    });
    expect(cell('PB', 12)).toMatchObject({
      procedures: [],
      people: ['W07'],
      welds: ['c'],
      withoutProcedure: ['c'],
      withoutPerson: [],
    });
  });
  it('counts a weld on the limit as held, although it stands in the step below', () => {
    expect(cell('PB', null)).toMatchObject({ welds: ['b'], procedures: [], withoutProcedure: [] });
  });
  it('never adds two holders up', () => {
    const halves = [
      holder('thin', { thicknessMm: { min: 3, max: 8 } }),
      holder('thick', { thicknessMm: { min: 8, max: 24 } }),
    ];
    const both = coveragePicture({
      holders: halves,
      welds: [need('d', { thicknessesMm: [6, 20] })],
    });
    const lacking = both[0]?.cells.flatMap(({ withoutProcedure }) => withoutProcedure);
    expect(lacking).toEqual(['d']);
  });
  it('names what it cannot place, and shows a position and a process that nobody holds', () => {
    const found = coveragePicture({
      holders: [holder('P1', { thicknessMm: null })],
      welds: [need('e', { thicknessesMm: [] }), need('f', { process: '141', position: 'PF' })],
    });
    expect(found.map(({ process, notPlaced }) => [process, notPlaced])).toEqual([
      ['135', ['P1', 'e']],
      ['141', []],
    ]);
    expect(found[1]?.cells).toEqual([
      expect.objectContaining({ position: 'PF', welds: ['f'], withoutProcedure: ['f'] }),
    ]);
  });
});
