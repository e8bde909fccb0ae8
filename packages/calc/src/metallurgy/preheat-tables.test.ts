import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { preheatAws } from './preheat-aws.js';
import { combinedThickness, methodALimit } from './preheat-method-a.js';

/**
 * printed: EN 1011-2:2001 + A1, Table C.1, every cell: hydrogen (one value inside the scale), then the limits in mm
 * at CE 0.49 with 1 and 2 kJ/mm and at CE 0.43 with 1 and 2 kJ/mm.
 */
it.each([
  ['A', 16, 25, 50, 40, 80],
  ['B', 12, 30, 55, 50, 90],
  ['C', 8, 35, 65, 60, 100],
  ['D', 4, 50, 100, 100, 100],
  ['E', 2, 60, 100, 100, 100],
])('printed: Table C.1, scale %s', (scale, hydrogenMlPer100g, ...limits) => {
  const cells = [
    { cePct: 0.49, heatInputKjMm: 1 },
    { cePct: 0.49, heatInputKjMm: 2 },
    { cePct: 0.43, heatInputKjMm: 1 },
    { cePct: 0.43, heatInputKjMm: 2 },
  ];
  const read = cells.map((cell) => methodALimit({ ...cell, hydrogenMlPer100g }));
  expect(read.map(valueOf)).toEqual(limits);
  expect(read.map((each) => partsOf(each).hydrogenScale)).toEqual(Array(4).fill(scale));
});

it('puts an upper edge of a hydrogen scale into that scale', () => {
  const scaleAt = (hydrogenMlPer100g: number) =>
    partsOf(methodALimit({ cePct: 0.43, heatInputKjMm: 1, hydrogenMlPer100g })).hydrogenScale;
  expect([3, 3.1, 5, 5.1, 10, 10.1, 15, 15.1].map(scaleAt).join('')).toBe('EDDCCBBA');
});

it('reads the safer column between two printed ones, and tells which', () => {
  const between = methodALimit({ cePct: 0.45, heatInputKjMm: 1.9, hydrogenMlPer100g: 8 });
  expect(valueOf(between)).toBe(35);
  expect(partsOf(between)).toMatchObject({ columnCePct: 0.49, columnHeatInputKjMm: 1 });
  expect(between).toMatchObject({ warnings: [{ code: 'coordinatorDecides' }] });
});

it.each([
  ['cePct', 0.29],
  ['cePct', 0.5],
  ['heatInputKjMm', 0.9],
  ['heatInputKjMm', 2.1],
])('is outside method A at %s = %f', (argument, given) => {
  const inside = { cePct: 0.43, heatInputKjMm: 1, hydrogenMlPer100g: 8 };
  expect(methodALimit({ ...inside, [argument]: given })).toMatchObject({
    ok: false,
    refusal: { argument, given, outsideMethod: 'en1011MethodA' },
  });
});

/** independent: EN 1011-2 C.2, sum of the heat paths; averaging over 75 mm from memory. */
it('independent: a butt weld adds two plates, a T-joint the flange twice', () => {
  const butt = combinedThickness({ paths: [{ thicknessMm: 20 }, { thicknessMm: 15 }] });
  const tee = combinedThickness({
    paths: [{ thicknessMm: 20 }, { thicknessMm: 20 }, { thicknessMm: 12 }],
  });
  expect(valueOf(butt)).toBe(35);
  expect(valueOf(tee)).toBe(52);
});

it('independent: 30 mm for 25 mm and then 15 mm averages to 20 mm over 75 mm', () => {
  const stepped = { thicknessMm: 30, step: { atMm: 25, thicknessMm: 15 } };
  const far = { thicknessMm: 30, step: { atMm: 80, thicknessMm: 15 } };
  expect(partsOf(combinedThickness({ paths: [stepped, far] })).pathMm).toEqual([20, 30]);
});

it('refuses a joint with one heat path and a thickness that is none', () => {
  expect(combinedThickness({ paths: [{ thicknessMm: 20 }] })).toMatchObject({
    refusal: { argument: 'paths', allowed: 'two to four heat paths' },
  });
  const paths = [{ thicknessMm: 20 }, { thicknessMm: 20, step: { atMm: NaN, thicknessMm: 5 } }];
  expect(combinedThickness({ paths })).toMatchObject({
    refusal: { argument: 'paths[1].step.atMm', given: NaN },
  });
});

/**
 * printed: AWS D1.1 Table 3.3 (2015), degC, and US Army TI 809-26 Table 3-1, every cell, at the edges of each
 * range. TI 809-26 converts 150 and 225 degF to 66 and 107 degC where the metric column of the code has 65 and 110.
 */
it.each([
  [3, 0, 0, 10],
  [12, 0, 0, 10],
  [20, 0, 0, 10],
  [20.1, 65, 10, 65],
  [25, 65, 10, 65],
  [38, 65, 10, 65],
  [38.1, 110, 65, 110],
  [50, 110, 65, 110],
  [65, 110, 65, 110],
  [65.1, 150, 110, 150],
  [75, 150, 110, 150],
])('printed: AWS D1.1 minimum preheat at %f mm: A %f, B %f, C %f degC', (thicknessMm, a, b, c) => {
  const read = (category: 'A' | 'B' | 'C') =>
    valueOf(preheatAws({ thicknessMm, category, edition: '2015' }));
  expect([read('A'), read('B'), read('C')]).toEqual([a, b, c]);
});

it('independent, disagreement: 150 degF (65 degC) for 1 in A36 with low-hydrogen welding is the figure of category A', () => {
  const inch = { thicknessMm: 25.4, edition: '2015' } as const;
  expect(valueOf(preheatAws({ ...inch, category: 'B' }))).toBe(10);
  expect(valueOf(preheatAws({ ...inch, category: 'A' }))).toBe(65);
});

it('names the table of the edition, and what cold plate takes where the table asks for 0', () => {
  const thin = { thicknessMm: 12, category: 'B' } as const;
  expect(partsOf(preheatAws({ ...thin, edition: '2015' })).table).toBe('Table 3.3');
  expect(partsOf(preheatAws({ ...thin, edition: '2020' })).table).toBe('Table 5.8');
  const codes = (thicknessMm: number) => {
    const result = preheatAws({ ...thin, thicknessMm, edition: '2020' });
    return result.ok ? result.warnings.map(({ code }) => code) : [];
  };
  expect(codes(12)).toEqual(['coordinatorDecides', 'warmColdPlate']);
  expect(codes(25)).toEqual(['coordinatorDecides']);
});

it('refuses an edition or a category it has no table for, and plate thinner than the table', () => {
  const plate = { thicknessMm: 12, category: 'B', edition: '2020' } as const;
  expect(preheatAws({ ...plate, edition: '2025' as '2020' })).toMatchObject({
    refusal: { argument: 'edition', given: '2025' },
  });
  expect(preheatAws({ ...plate, category: 'D' as 'C' })).toMatchObject({
    refusal: { argument: 'category', given: 'D' },
  });
  expect(preheatAws({ ...plate, thicknessMm: 2.9 })).toMatchObject({
    refusal: { argument: 'thicknessMm', outsideMethod: 'awsPreheat' },
  });
});

refusesTheImpossible(
  {
    methodALimit: accepted(methodALimit, { cePct: 0.43, heatInputKjMm: 1, hydrogenMlPer100g: 8 }),
    preheatAws: accepted(preheatAws, { thicknessMm: 25, category: 'B', edition: '2020' }),
  },
  { nought: ['hydrogenMlPer100g'] },
);
