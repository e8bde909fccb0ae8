import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  judgeSuggested,
  operatorTest,
  procedureTest,
  suggestedFor,
  suggestOperatorRanges,
  suggestProcedureRanges,
  suggestWelderRanges,
  welderTest,
  type ProcedureTest,
  type SuggestedRanges,
  type WelderTest,
} from './index.js';

const mm = fc.double({ min: 0.5, max: 200, noNaN: true });
const maybe = <T>(values: fc.Arbitrary<T>) => fc.option(values, { nil: null });
const yesNo = maybe(fc.boolean());
const positions = ['PA', 'PB', 'PC', 'PE', 'PF', 'PG', 'PH', 'PJ', 'H-L045', '1G', '3G', '6G'];

const procedureCodes = [
  { code: 'ISO 15614-1', edition: '2017' },
  { code: 'ISO 15614-1', edition: '2004' },
  { code: 'ASME IX', edition: '2017' },
  { code: 'AWS D1.1', edition: '2020' },
  { code: 'AWS D1.1', edition: '2015' },
] as const;
const anyProcedureTest: fc.Arbitrary<ProcedureTest> = fc
  .tuple(
    fc.constantFrom(...procedureCodes),
    fc.record({
      level: fc.constantFrom('2', null),
      process: maybe(fc.constantFrom('111', '121', '135', '136', '138', '141', 'GMAW-S', 'GTAW')),
      mechanisation: maybe(fc.constantFrom('manual', 'automatic')),
      transfer: maybe(fc.constantFrom('D', 'G', 'S', 'P')),
      jointType: maybe(fc.constantFrom('butt', 'tButt', 'fillet', 'plug')),
      product: maybe(fc.constantFrom('plate' as const, 'pipe' as const)),
      thicknessMm: maybe(mm),
      diameterMm: maybe(mm),
      throatMm: maybe(mm),
      depositedMm: maybe(mm),
      runs: maybe(fc.constantFrom('single' as const, 'multi' as const)),
      sides: maybe(fc.constantFrom('one' as const, 'both' as const)),
      position: maybe(fc.constantFrom(...positions)),
      materialGroups: maybe(
        fc.array(fc.constantFrom('1.1', '1.2', '2.2', '8.1', 'P1', 'P4'), { maxLength: 2 }),
      ),
    }),
    fc.record({
      backing: yesNo,
      gouged: yesNo,
      squareGroove: yesNo,
      maxPassMm: maybe(mm),
      gas: maybe(fc.constantFrom('M21', 'C1')),
      co2Pct: maybe(fc.double({ min: 1, max: 90, noNaN: true })),
      gasFlowLMin: maybe(mm),
      wireDiameterMm: maybe(mm),
      currentA: maybe(mm),
      voltageV: maybe(mm),
      travelMmMin: maybe(mm),
      heatInputKjMm: maybe(mm),
      preheatC: maybe(fc.integer({ min: -10, max: 300 })),
      interpassC: maybe(fc.integer({ min: -10, max: 300 })),
      impactRequired: yesNo,
      impactTested: yesNo,
      hardnessRequired: yesNo,
      tableUnit: fc.constantFrom('mm' as const, 'in' as const),
    }),
  )
  .map(([code, piece, values]) => procedureTest({ ...code, ...piece, ...values }));

const welderCodes = [
  { code: 'ISO 9606-1', edition: '2012' },
  { code: 'ASME IX', edition: '2019' },
  { code: 'AWS D1.1', edition: '2020' },
] as const;
const anyWelderTest: fc.Arbitrary<WelderTest> = fc
  .tuple(
    fc.constantFrom(...welderCodes),
    fc.record({
      process: maybe(fc.constantFrom('111', '135', '136', '141', 'SMAW')),
      transfer: maybe(fc.constantFrom('D', 'S')),
      jointType: maybe(fc.constantFrom('butt', 'fillet')),
      supplementaryFillet: yesNo,
      product: maybe(fc.constantFrom('plate' as const, 'pipe' as const)),
      thicknessMm: maybe(mm),
      depositedMm: maybe(mm),
      diameterMm: maybe(mm),
      layers: maybe(fc.integer({ min: 1, max: 5 })),
      position: maybe(fc.constantFrom(...positions)),
      weldDetail: maybe(fc.constantFrom('ss nb', 'ml', 'bs')),
      fillerGroup: maybe(fc.constantFrom('FM1', 'FM5', 'F6', 'F4')),
      fillerType: maybe(fc.constantFrom('S', 'B', 'R', 'nm')),
      materialGroup: maybe(fc.constantFrom('1.1', 'P1')),
      backing: yesNo,
      tableUnit: fc.constantFrom('mm' as const, 'in' as const),
    }),
  )
  .map(([code, piece]) => welderTest({ ...code, ...piece }));

/** Values of a job: numbers all over the range, and designations that occur. */
const jobValue = fc.oneof(
  mm,
  fc.constantFrom(...positions, 'D', 'S', 'butt', 'fillet', 'plate', 'pipe', '135', 'FM1', 'with'),
);

function holdsItself(ranges: SuggestedRanges) {
  for (const suggested of ranges.ranges) {
    if (suggested.answer === 'cannotSay') continue;
    for (const own of suggested.tested) {
      expect(judgeSuggested(suggested, own), `${suggested.code} ${suggested.variable} ${own}`).toBe(
        'inside',
      );
    }
  }
}

describe('a range', () => {
  it('always holds its own test piece', () => {
    fc.assert(
      fc.property(anyProcedureTest, (test) => holdsItself(suggestProcedureRanges(test))),
      {
        numRuns: 500,
      },
    );
    fc.assert(
      fc.property(anyWelderTest, (test) => holdsItself(suggestWelderRanges(test))),
      {
        numRuns: 500,
      },
    );
  });

  it('has its sure part within its unsure one', () => {
    fc.assert(
      fc.property(anyProcedureTest, jobValue, (test, value) => {
        for (const suggested of suggestProcedureRanges(test).ranges) {
          if (suggested.answer !== 'range' || suggested.unsure === null) continue;
          const wide = { ...suggested, band: suggested.unsure, unsure: null };
          if (judgeSuggested(suggested, value) === 'inside') {
            expect(judgeSuggested(wide, value)).toBe('inside');
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  it('never comes back inside further out from its test piece', () => {
    fc.assert(
      fc.property(anyProcedureTest, fc.double({ min: 1, max: 5, noNaN: true }), (test, factor) => {
        for (const suggested of suggestProcedureRanges(test).ranges) {
          const own = suggested.tested[0];
          if (typeof own !== 'number' || own <= 0) continue;
          for (const outward of [factor, 1 / factor]) {
            const near = judgeSuggested(suggested, own * outward);
            const far = judgeSuggested(suggested, own * outward * outward);
            if (near !== 'inside') expect(far).not.toBe('inside');
            if (near === 'outside') expect(far).toBe('outside');
          }
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('a missing input', () => {
  it('never turns a value inside', () => {
    fc.assert(
      fc.property(anyProcedureTest, jobValue, fc.nat(), (test, value, at) => {
        const keys = Object.keys(test).filter((key) => key !== 'code' && key !== 'tableUnit');
        const key = keys[at % keys.length] ?? 'edition';
        const less = suggestProcedureRanges({ ...test, [key]: null });
        for (const suggested of less.ranges) {
          if (judgeSuggested(suggested, value) !== 'inside') continue;
          const full = suggestedFor(suggestProcedureRanges(test), suggested.variable);
          expect(judgeSuggested(full, value), `${suggested.variable} without ${key}`).toBe(
            'inside',
          );
        }
      }),
      { numRuns: 500 },
    );
    fc.assert(
      fc.property(anyWelderTest, jobValue, fc.nat(), (test, value, at) => {
        const keys = Object.keys(test).filter((key) => key !== 'code' && key !== 'tableUnit');
        const key = keys[at % keys.length] ?? 'edition';
        const less = suggestWelderRanges({ ...test, [key]: null });
        for (const suggested of less.ranges) {
          if (judgeSuggested(suggested, value) !== 'inside') continue;
          const full = suggestedFor(suggestWelderRanges(test), suggested.variable);
          expect(judgeSuggested(full, value), `${suggested.variable} without ${key}`).toBe(
            'inside',
          );
        }
      }),
      { numRuns: 500 },
    );
  });

  it('of the job is never inside', () => {
    fc.assert(
      fc.property(anyProcedureTest, (test) => {
        for (const suggested of suggestProcedureRanges(test).ranges) {
          expect(judgeSuggested(suggested, null)).toBe('cannotSay');
          expect(judgeSuggested(suggested, NaN)).toBe('cannotSay');
          expect(judgeSuggested(suggested, ' ')).toBe('cannotSay');
        }
      }),
    );
  });
});

describe('no rule of one code', () => {
  it('reads a record of another', () => {
    fc.assert(
      fc.property(anyProcedureTest, (test) => {
        const { ranges, code } = suggestProcedureRanges(test);
        expect(code).toBe(test.code);
        expect(ranges.every((suggested) => suggested.code === test.code)).toBe(true);
      }),
    );
    const wrong = [
      'ISO 9606-1',
      'ISO 14732',
      'ISO 15614-2',
      'EN 287-1',
      '',
      'AWS D1.2',
      'ISO 15614-12',
    ];
    for (const code of wrong) {
      expect(suggestProcedureRanges(procedureTest({ code, edition: '2017' })).ranges).toEqual([]);
    }
    for (const code of ['ISO 15614-1', 'ISO 14732', 'ISO 9606-2', 'ISO 9606-11']) {
      expect(suggestWelderRanges(welderTest({ code, edition: '2012' })).ranges).toEqual([]);
    }
    for (const code of ['ISO 9606-1', 'ASME IX', 'AWS D1.1']) {
      expect(suggestOperatorRanges(operatorTest({ code, edition: '2013' })).ranges).toEqual([]);
    }
  });

  it('is read for an edition it does not belong to', () => {
    for (const { code } of [...procedureCodes, ...welderCodes]) {
      for (const edition of [null, '', 'old', '1999', '2025']) {
        expect(suggestProcedureRanges(procedureTest({ code, edition })).ranges).toEqual([]);
        expect(suggestWelderRanges(welderTest({ code, edition })).ranges).toEqual([]);
      }
    }
  });
});

const operator = operatorTest({
  ...{ code: 'ISO 14732', edition: '2013', process: '135', mechanisation: 'automatic' },
  ...{ unit: 'R1', jointSensor: true, arcSensor: false, runs: 'multi' },
});
const judged = (variable: Parameters<typeof suggestedFor>[1], value: string, given = operator) =>
  judgeSuggested(suggestedFor(suggestOperatorRanges(given), variable), value);

describe('printed: operators (ISO 14732; DEKRA sheets, high; run direction from memory, medium)', () => {
  it('are bound to their unit, sensors and runs', () => {
    expect([judged('unit', 'R1'), judged('unit', 'R2')]).toEqual(['inside', 'outside']);
    expect([judged('jointSensor', 'with'), judged('jointSensor', 'without')]).toEqual([
      'inside',
      'outside',
    ]);
    expect(judged('runs', 'single')).toBe('inside');
    expect(judged('runs', 'multi', { ...operator, runs: 'single' })).toBe('outside');
    expect(judged('materialGroup', '8.1')).toBe('inside');
  });
  it('answer nothing for welding by hand or with an input missing', () => {
    expect(judged('mechanisation', 'manual', { ...operator, mechanisation: 'manual' })).toBe(
      'cannotSay',
    );
    expect(judged('unit', 'R1', { ...operator, unit: null })).toBe('cannotSay');
    expect(judged('materialGroup', '8.1', { ...operator, mechanisation: null })).toBe('cannotSay');
  });
});
