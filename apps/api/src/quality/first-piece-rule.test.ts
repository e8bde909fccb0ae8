import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  measured,
  resultOf,
  scopeOf,
  sizesToMeasure,
  strictestLevel,
  unmeasured,
  type Circumstances,
} from './first-piece-rule.js';

const same: Circumstances = {
  partRevision: 'B',
  cellCode: 'R1',
  program: 'P-143 revision 4',
  fixture: 'FX-031',
  wire: 'Solid wire 1.2',
  wps: 'WPS-014 r3',
};
const at = new Date('2026-10-05T05:00:00Z');
const ask = (changes: {
  now?: Partial<Circumstances>;
  lastAt?: string;
  knows?: boolean;
  never?: boolean;
}) =>
  scopeOf({
    now: { ...same, ...changes.now, at },
    last: changes.never
      ? null
      : { ...same, at: new Date(changes.lastAt ?? '2026-03-14T10:00:00Z'), jobNumber: 7 },
    personKnowsPart: changes.knows ?? true,
    personCode: 'O03',
  });

describe('short or full', () => {
  it('is short when nothing changed since the last good run', () => {
    expect(ask({})).toEqual({
      scope: 'short',
      reasons: ['Nothing has changed since the last good run, job 7.'],
    });
  });

  it.each([
    ['partRevision', 'C', 'The part revision is C; it was B.'],
    ['cellCode', 'R2', 'The cell is R2; it was R1.'],
    ['program', 'P-143 revision 5', 'The program is P-143 revision 5; it was P-143 revision 4.'],
    ['fixture', null, 'The fixture is none; it was FX-031.'],
    ['wire', 'Cored wire 1.2', 'The wire is Cored wire 1.2; it was Solid wire 1.2.'],
    ['wps', 'WPS-014 r4', 'The WPS is WPS-014 r4; it was WPS-014 r3.'],
  ] as const)('is full when %s differs', (key, value, reason) => {
    expect(ask({ now: { [key]: value } })).toEqual({ scope: 'full', reasons: [reason] });
  });

  it('is full for a person new to the part, and where none has passed before', () => {
    expect(ask({ knows: false })).toEqual({
      scope: 'full',
      reasons: ['O03 has not made this part before.'],
    });
    expect(ask({ never: true }).scope).toBe('full');
  });

  it('is full from 24 months on, and short before', () => {
    // 5 Oct 2024 to 5 Oct 2026 is 730 days; 24 months of 30.44 days are 730.5.
    expect(ask({ lastAt: '2024-10-05T05:00:00Z' }).scope).toBe('short');
    expect(ask({ lastAt: '2024-10-04T05:00:00Z' })).toEqual({
      scope: 'full',
      reasons: ['The last good run was 24 months ago.'],
    });
  });

  it('names every change', () => {
    expect(ask({ now: { fixture: 'FX-9', wire: null }, knows: false }).reasons).toHaveLength(3);
  });
});

const fillet = {
  ...{ number: 1, jointType: 'fillet' as const, throatMm: 4, legMm: null },
  ...{ sizeUnderMm: null, sizeOverMm: null },
};

describe('sizes', () => {
  it('asks for the throat as drawn or the leg of the same fillet', () => {
    // z = a sqrt 2: 4 x 1.41421 = 5.657 mm.
    const [throat, leg] = sizesToMeasure([fillet], 'full');
    expect(throat).toEqual({
      ...{ weldNumber: 1, measure: 'throat', nominalMm: 4, lowestMm: 4, highestMm: null },
    });
    expect(leg?.nominalMm).toBeCloseTo(5.657, 3);
  });

  it('refuses a leg of 5.0 where 5.7 is drawn, and takes 5.7', () => {
    const limits = sizesToMeasure([fillet], 'full');
    const leg = (measuredMm: number) =>
      measured(limits, { weldNumber: 1, measure: 'leg', measuredMm })?.inside;
    expect([leg(5), leg(5.6), leg(5.7)]).toEqual([false, false, true]);
  });

  it('keeps to the tolerance of the weld list, its limits included', () => {
    const limits = sizesToMeasure([{ ...fillet, sizeUnderMm: 0.5, sizeOverMm: 1 }], 'full');
    const throat = (measuredMm: number) =>
      measured(limits, { weldNumber: 1, measure: 'throat', measuredMm })?.inside;
    expect([3.4, 3.5, 5, 5.1].map(throat)).toEqual([false, true, true, false]);
  });

  it('knows no size that is not drawn', () => {
    const butt = { ...fillet, number: 2, jointType: 'butt' as const, throatMm: null };
    const limits = sizesToMeasure([fillet, butt], 'full');
    expect(measured(limits, { weldNumber: 2, measure: 'leg', measuredMm: 5 })).toBeNull();
  });

  it('asks a short check for one weld and a full one for all', () => {
    const welds = [1, 2, 3].map((number) => ({ ...fillet, number }));
    expect(unmeasured(sizesToMeasure(welds, 'short'), [])).toEqual([1]);
    expect(unmeasured(sizesToMeasure(welds, 'full'), [{ weldNumber: 2 }])).toEqual([1, 3]);
  });
});

describe('result', () => {
  it('passes only when every size is inside and the visual test is accepted', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean()), fc.boolean(), fc.boolean(), (inside, good, two) => {
        const result = resultOf({
          sizes: inside.map((one) => ({ inside: one })),
          visual: good ? 'accepted' : 'rejected',
          twoPersons: two,
        });
        const expected = good && !inside.includes(false);
        expect(result).toBe(expected ? (two ? 'waitingQa' : 'passed') : 'failed');
      }),
      { seed: 5817 },
    );
  });

  it('looks by the strictest level of the welds', () => {
    const level = (...levels: ('B' | 'C' | 'D')[]) =>
      strictestLevel(levels.map((qualityLevel) => ({ qualityLevel })));
    expect([level('D', 'C'), level('C', 'B'), level('D'), level()]).toEqual(['C', 'B', 'D', 'C']);
  });
});
