import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerOf } from '../answer.js';
import { weldLines, type WpsRanges } from '../fit.js';
import { findProcedures, type FoundProcedure, type WeldToCover } from './finder.js';

/** Invented procedures and welds. */
const ranges: WpsRanges = {
  process: '135',
  mechanisations: ['fullyMechanised'],
  materialGroups: ['1'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  fillers: ['G3Si1'],
  gases: ['M21'],
  thicknessMm: { min: 3, max: 12 },
  throatMm: { min: 3, max: 6 },
  wireDiameterMm: null,
  currentA: null,
  voltageV: null,
  wireSpeedMMin: null,
  travelMmMin: null,
  heatInputKjMm: null,
  heatInputBasis: 'heatInput',
  preheatMinC: null,
  interpassMaxC: null,
};
const weld: WeldToCover = {
  id: 'w1',
  process: '135',
  materialGroups: ['1.2', '1.2'],
  thicknessesMm: [6, 8],
  jointType: 'fillet',
  throatMm: 4,
  position: 'PB',
};
const procedure = (id: string, given: Partial<WpsRanges> = {}): FoundProcedure => ({
  id,
  ranges: { ...ranges, ...given },
});
function find(given: Partial<WeldToCover>, procedures: readonly FoundProcedure[], mostMisses = 3) {
  const [found] = findProcedures({ welds: [{ ...weld, ...given }], procedures, mostMisses });
  if (found === undefined) throw new Error('no answer');
  return found;
}

describe('finding procedures for a weld', () => {
  it('names those that cover it and those that cannot be told', () => {
    const onFile = [
      procedure('A'),
      procedure('B', { throatMm: null }),
      procedure('C', { process: '141' }),
    ];
    expect(find({}, onFile)).toMatchObject({ weldId: 'w1', covering: ['A'], cannotSay: ['B'] });
  });

  it('names the nearest misses by one variable, with limits and distance', () => {
    const onFile = [
      procedure('far', { thicknessMm: { min: 20, max: 40 } }),
      procedure('near', { thicknessMm: { min: 3, max: 7.5 } }),
      procedure('position', { positions: ['PA'] }),
      procedure('throat', { throatMm: { min: 5, max: 10 } }),
      procedure('two', { positions: ['PA'], throatMm: { min: 5, max: 10 } }),
    ];
    const { covering, nearestMisses } = find({}, onFile, 4);
    expect(covering).toEqual([]);
    expect(nearestMisses.map(({ procedureId }) => procedureId)).toEqual([
      'near',
      'throat',
      'far',
      'position',
    ]);
    expect(nearestMisses[0]?.line).toMatchObject({
      variable: 'thickness',
      given: 8,
      min: 3,
      max: 7.5,
      margin: -0.5,
    });
    expect(nearestMisses[3]?.line).toMatchObject({ variable: 'position', allowed: ['PA'] });
  });

  it('keeps as many misses as asked for', () => {
    const onFile = [6, 5, 7, 4].map((max) =>
      procedure(`to ${max}`, { thicknessMm: { min: 3, max } }),
    );
    const named = (most: number) =>
      find({}, onFile, most).nearestMisses.map((miss) => miss.procedureId);
    expect(named(2)).toEqual(['to 7', 'to 6']);
    expect(named(0)).toEqual([]);
  });

  it('judges mechanisation where a cell is meant, and no throat on a butt weld', () => {
    const manual = procedure('M', { mechanisations: ['manual'], jointTypes: ['butt', 'fillet'] });
    expect(find({}, [manual]).covering).toEqual(['M']);
    expect(find({ mechanisation: 'automatic' }, [manual]).nearestMisses[0]?.line.variable).toBe(
      'mechanisation',
    );
    expect(find({ mechanisation: null }, [manual]).cannotSay).toEqual(['M']);
    expect(find({ jointType: 'butt', throatMm: null }, [manual]).covering).toEqual(['M']);
  });
});

const limit = fc.option(fc.double({ min: 0.5, max: 30, noNaN: true }), { nil: null });
const range = fc.option(fc.record({ min: limit, max: limit }), { nil: null });
const words = (...list: string[]) => fc.subarray(list);
const anyProcedure = fc
  .record({
    process: fc.constantFrom('135', '141', ''),
    mechanisations: words('manual', 'automatic'),
    materialGroups: words('1', '1.2', '8.1', '8-1'),
    yieldMPa: range,
    jointTypes: words('fillet', 'butt', 'lap'),
    positions: words('PA', 'PB', 'PF'),
    thicknessMm: range,
    throatMm: range,
  })
  .map((given) => ({ ...ranges, ...given }));
const anyWeld = fc.record({
  process: fc.constantFrom('135', '141'),
  materialGroups: fc.array(fc.constantFrom('1.1', '1.2', '8', '8.1', ''), { maxLength: 2 }),
  thicknessesMm: fc.array(fc.double({ min: 0.5, max: 30, noNaN: true }), { maxLength: 2 }),
  jointType: fc.constantFrom('fillet', 'butt', 'lap'),
  yieldsMPa: fc.array(fc.constantFrom(5, 20, null), { maxLength: 2 }),
  throatMm: limit,
  position: fc.constantFrom('PA', 'PB', 'PF'),
  mechanisation: fc.constantFrom('manual', 'automatic', null),
});

it('independent: answers for every pair as the single fit does', () => {
  fc.assert(
    fc.property(
      fc.array(anyProcedure, { minLength: 1, maxLength: 6 }),
      fc.array(anyWeld, { minLength: 1, maxLength: 6 }),
      (each, welds) => {
        const procedures = each.map((own, at) => ({ id: String(at), ranges: own }));
        const asked = welds.map((own, at) => ({ ...own, id: String(at) }));
        const found = findProcedures({ welds: asked, procedures, mostMisses: 100 });
        asked.forEach((own, at) => {
          const expected = { covering: [], cannotSay: [], missed: [] } as Record<string, string[]>;
          for (const { id, ranges: wps } of procedures) {
            const lines = weldLines(own, { mechanisation: own.mechanisation }, wps);
            const { result } = answerOf(lines);
            const isOneOff = lines.filter((line) => line.result !== 'inside').length === 1;
            if (result === 'inside') expected['covering']?.push(id);
            else if (result === 'cannotSay') expected['cannotSay']?.push(id);
            else if (isOneOff) expected['missed']?.push(id);
          }
          const answer = found[at];
          expect({
            covering: answer?.covering,
            cannotSay: answer?.cannotSay,
            missed: answer?.nearestMisses.map(({ procedureId }) => procedureId).toSorted(),
          }).toEqual({ ...expected, missed: expected['missed']?.toSorted() });
        });
      },
    ),
    { numRuns: 300 },
  );
});

it('asks each of 300 procedures about 5 000 welds that all differ', () => {
  const procedures = Array.from({ length: 300 }, (_, at) =>
    procedure(`P${at}`, { thicknessMm: { min: 3 + (at % 7), max: 8 + at / 10 } }),
  );
  const welds = Array.from({ length: 5000 }, (_, at) => ({
    ...weld,
    id: `w${at}`,
    thicknessesMm: [4 + at / 1000, 5 + at / 777],
    throatMm: 3 + (at % 4000) / 1000,
  }));
  const found = findProcedures({ welds, procedures });
  expect(found).toHaveLength(5000);
  const [first, last] = [found[0], found.at(-1)];
  const holding = (mm: readonly number[]) =>
    procedures.filter((own) =>
      mm.every(
        (each) =>
          each >= (own.ranges.thicknessMm?.min ?? 0) && each <= (own.ranges.thicknessMm?.max ?? 0),
      ),
    ).length;
  expect(first?.covering).toHaveLength(holding([4, 5]));
  expect(last?.covering).toHaveLength(holding([4 + 4999 / 1000, 5 + 4999 / 777]));
});
