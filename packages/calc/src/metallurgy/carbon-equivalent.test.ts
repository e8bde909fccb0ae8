import fc from 'fast-check';
import { expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import type { Analysis } from './analysis.js';
import { ceIiw, cet, pcm } from './carbon-equivalent.js';

/** Analyses typical of the grades, from memory; they are no certificates. Boron is 0 where none is alloyed. */
const s355: Analysis = {
  C: 0.17,
  Si: 0.35,
  Mn: 1.45,
  Cr: 0.05,
  Mo: 0.01,
  Ni: 0.04,
  Cu: 0.06,
  V: 0.005,
  B: 0,
};
const s690: Analysis = {
  C: 0.16,
  Si: 0.3,
  Mn: 1.3,
  Cr: 0.45,
  Mo: 0.25,
  Ni: 0.1,
  Cu: 0.05,
  V: 0.02,
  B: 0.002,
};
const s460: Analysis = {
  C: 0.08,
  Si: 0.25,
  Mn: 1.5,
  Cr: 0.04,
  Mo: 0.02,
  Ni: 0.3,
  Cu: 0.25,
  V: 0.005,
  B: 0,
};

/** independent: the formulas as Dillinger prints them and as EN 1011-2 C.2 and C.3 have them, worked by hand. */
it.each([
  ['CE S355J2+N', ceIiw, s355, 0.431333],
  ['CET S355J2+N', cet, s355, 0.3225],
  ['Pcm S355J2+N', pcm, s355, 0.2615],
  ['CE S690QL', ceIiw, s690, 0.530667],
  ['CET S690QL', cet, s690, 0.3425],
  ['Pcm S690QL', pcm, s690, 0.290333],
  ['CE S460ML', ceIiw, s460, 0.379667],
  ['CET S460ML', cet, s460, 0.254],
  ['Pcm S460ML', pcm, s460, 0.184667],
])('independent: %s', (_what, equivalent, analysis, expected) => {
  expect(valueOf(equivalent({ analysis }))).toBeCloseTo(expected, 6);
});

it('independent: every term of CE for S355J2+N by hand', () => {
  // 0.17 + 1.45/6 + (0.05 + 0.01 + 0.005)/5 + (0.04 + 0.06)/15.
  const { terms } = partsOf(ceIiw({ analysis: s355 }));
  expect(terms.C).toBe(0.17);
  expect(terms.Mn).toBeCloseTo(0.241667, 6);
  expect(terms.Cr).toBeCloseTo(0.01, 12);
  expect(terms.Mo).toBeCloseTo(0.002, 12);
  expect(terms.V).toBeCloseTo(0.001, 12);
  expect(terms.Ni).toBeCloseTo(0.002667, 6);
  expect(terms.Cu).toBeCloseTo(0.004, 12);
});

it('independent: the maxima of S355 make 0.467, above its own limit of 0.45 (EN 10025-2, from memory)', () => {
  const analysis = { C: 0.2, Mn: 1.6, Cr: 0, Mo: 0, V: 0, Ni: 0, Cu: 0 };
  const value = valueOf(ceIiw({ analysis }));
  expect(value).toBeCloseTo(0.466667, 6);
  expect(value).toBeGreaterThan(0.45);
});

it('independent, disagreement: (Cr+Cu)/10 in CET, a slip seen in print, makes S690QL 0.3675 instead of 0.3425', () => {
  const slip = 0.16 + (1.3 + 0.25) / 10 + (0.45 + 0.05) / 10 + 0.1 / 40;
  expect(slip).toBeCloseTo(0.3675, 10);
  expect(slip - valueOf(cet({ analysis: s690 }))).toBeCloseTo(0.025, 10);
});

it('independent: 0.002 % of boron adds 0.010 to Pcm', () => {
  const without = valueOf(pcm({ analysis: { ...s690, B: 0 } }));
  expect(valueOf(pcm({ analysis: s690 })) - without).toBeCloseTo(0.01, 12);
});

it.each([
  ['CE', ceIiw, ['C', 'Mn', 'Cr', 'Mo', 'V', 'Ni', 'Cu']],
  ['CET', cet, ['C', 'Mn', 'Mo', 'Cr', 'Cu', 'Ni']],
  ['Pcm', pcm, ['C', 'Si', 'Mn', 'Cu', 'Cr', 'Ni', 'Mo', 'V', 'B']],
])(
  '%s refuses by name an element that is not known, and takes no other for it',
  (_n, run, needed) => {
    for (const element of Object.keys(s690)) {
      for (const unknown of [null, undefined]) {
        const result = run({ analysis: { ...s690, [element]: unknown } });
        if (!needed.includes(element)) {
          expect(result.ok, element).toBe(true);
          continue;
        }
        expect(result).toMatchObject({
          ok: false,
          refusal: { argument: `analysis.${element}`, given: unknown },
        });
        expect(result.ok ? '' : result.refusal.allowed).toContain(`${element} in %`);
      }
    }
  },
);

it.each([NaN, Infinity, -0.01, 101, '0.1'])('refuses a share of %s', (given) => {
  const analysis = { ...s690, Mn: given as number };
  for (const run of [ceIiw, cet, pcm]) {
    expect(run({ analysis })).toMatchObject({
      ok: false,
      refusal: { argument: 'analysis.Mn', given },
    });
  }
});

/** The ranges of EN 1011-2 C.3 as read at second hand: one step outside each edge, and the edge itself. */
it.each([
  ['C', 0.05, 0.049],
  ['C', 0.32, 0.321],
  ['Si', 0.8, 0.81],
  ['Mn', 0.5, 0.49],
  ['Mn', 1.9, 1.91],
  ['Cr', 1.5, 1.51],
  ['Cu', 0.7, 0.71],
  ['Mo', 0.75, 0.76],
  ['Nb', 0.06, 0.061],
  ['Ni', 2.5, 2.51],
  ['Ti', 0.12, 0.121],
  ['V', 0.18, 0.181],
  ['B', 0.005, 0.0051],
])('CET holds for %s = %f and answers outside the method at %f', (element, edge, outside) => {
  expect(cet({ analysis: { ...s690, [element]: edge } }).ok).toBe(true);
  expect(cet({ analysis: { ...s690, [element]: outside } })).toMatchObject({
    ok: false,
    refusal: { argument: `analysis.${element}`, given: outside, outsideMethod: 'cetRange' },
  });
});

it('says which elements bound the range of CET and were not given', () => {
  const result = cet({ analysis: s355 });
  expect(partsOf(result).unchecked).toEqual(['Nb', 'Ti']);
  expect(result).toMatchObject({ warnings: [{ code: 'elementsUnchecked', given: 2 }] });
  expect(cet({ analysis: { ...s355, Nb: 0.02, Ti: 0.01 } })).toMatchObject({ warnings: [] });
});

it('warns that Pcm is unusual above 0.18 % of carbon', () => {
  expect(pcm({ analysis: { ...s355, C: 0.18 } })).toMatchObject({ warnings: [] });
  expect(pcm({ analysis: { ...s355, C: 0.19 } })).toMatchObject({
    warnings: [{ code: 'otherEquivalentUsual', given: 0.19 }],
  });
});

const anyAnalysis = fc.record(
  Object.fromEntries(
    Object.keys(s690).map((element) => [
      element,
      fc.oneof(fc.double(), fc.double({ min: 0, max: 2 }), fc.constant(null)),
    ]),
  ),
);

it('never gives a figure that is not a number, and its terms sum to it', () => {
  fc.assert(
    fc.property(anyAnalysis, (analysis) => {
      for (const run of [ceIiw, cet, pcm]) {
        const result = run({ analysis });
        if (!result.ok) continue;
        const sum = Object.values(result.parts.terms).reduce((total, term) => total + term, 0);
        expect(Number.isFinite(result.value)).toBe(true);
        expect(sum).toBeCloseTo(result.value, 10);
      }
    }),
  );
});

it('more of any element never lowers CE or Pcm', () => {
  const more = fc.double({ min: 0, max: 5, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom(...Object.keys(s690)), more, (element, by) => {
      const key = element as keyof Analysis;
      const richer = { ...s690, [key]: (s690[key] ?? 0) + by };
      for (const run of [ceIiw, pcm]) {
        expect(valueOf(run({ analysis: richer }))).toBeGreaterThanOrEqual(
          valueOf(run({ analysis: s690 })),
        );
      }
    }),
  );
});
