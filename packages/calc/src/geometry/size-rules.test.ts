import fc from 'fast-check';
import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { depositedMass } from './deposit.js';
import { excessLimit } from './excess-weld-metal.js';
import { filletArea } from './fillet.js';
import { leastFilletLeg, overWelding } from './size-rules.js';

const gasMetalArc = {
  lowHydrogen: true,
  calculatedPreheat: false,
  cyclicLoad: false,
  edition: '2020',
} as const;
const plates = { ...gasMetalArc, thinnerMm: 10, thickerMm: 25 };

/** printed: AWS D1.1 Table 7.7 (2020), all rows at their edges; rows unchanged since 2000; the first also in AWS forum 289063. */
it.each([
  [6, 3],
  [6.1, 5],
  [10, 5],
  [12, 5],
  [12.1, 6],
  [16, 6],
  [20, 6],
  [20.1, 8],
  [25, 8],
])('printed: least leg on %f mm is %f mm', (thicknessMm, legMm) => {
  const joint = { ...gasMetalArc, thinnerMm: thicknessMm, thickerMm: 40 };
  expect(valueOf(leastFilletLeg(joint))).toBe(legMm);
});

it('printed: 5 mm at least under cyclic load, Table 7.7', () => {
  const joint = { ...plates, thinnerMm: 6, cyclicLoad: true };
  expect(valueOf(leastFilletLeg(joint))).toBe(5);
  expect(valueOf(leastFilletLeg({ ...plates, thinnerMm: 16, cyclicLoad: true }))).toBe(6);
});

/** From memory of the notes to the table: which part governs. */
it('goes by the thicker part and a single run without low hydrogen or calculated preheat', () => {
  const stick = leastFilletLeg({ ...plates, lowHydrogen: false });
  expect(valueOf(stick)).toBe(8);
  expect(partsOf(stick)).toMatchObject({ governingMm: 25, tabulatedLegMm: 8 });
  expect(stick).toMatchObject({
    warnings: [{ code: 'limitFromMemory' }, { code: 'singleRunOnly' }],
  });
  const heated = leastFilletLeg({ ...plates, lowHydrogen: false, calculatedPreheat: true });
  expect(valueOf(heated)).toBe(5);
  expect(heated).toMatchObject({ warnings: [{ code: 'limitFromMemory' }] });
});

it('need not exceed the thinner part', () => {
  const thin = leastFilletLeg({ ...plates, lowHydrogen: false, thinnerMm: 4 });
  expect(valueOf(thin)).toBe(4);
  expect(partsOf(thin).tabulatedLegMm).toBe(8);
});

it('names the table of the edition, and refuses an edition it has none for', () => {
  expect(partsOf(leastFilletLeg(plates)).table).toBe('Table 7.7');
  expect(partsOf(leastFilletLeg({ ...plates, edition: '2015' })).table).toBe('Table 5.7');
  expect(leastFilletLeg({ ...plates, edition: '2025' as '2020' })).toMatchObject({
    refusal: { argument: 'edition', given: '2025' },
  });
  expect(leastFilletLeg({ ...plates, thickerMm: 9 })).toMatchObject({
    refusal: { argument: 'thickerMm', given: 9, allowed: 'not less than the thinner part, 10 mm' },
  });
});

const drawn = { drawnThroatMm: 5, laidThroatMm: 8, lengthMm: 1000 };

/** printed: a trade text on estimating has 8 mm laid for 5 mm more than double the cost; 64 / 25 = 2.56. */
it('printed: 8 laid for 5 more than doubles the metal', () => {
  expect(valueOf(overWelding(drawn))).toBeCloseTo(1.56, 10);
  expect(partsOf(overWelding(drawn)).extraThroatShare).toBeCloseTo(0.6, 10);
});

it('independent: 10 % more size is 21 % more metal', () => {
  const tenth = overWelding({ ...drawn, drawnThroatMm: 4, laidThroatMm: 4.4 });
  expect(valueOf(tenth)).toBeCloseTo(0.21, 10);
});

it('independent: 39 mm2 over a metre weigh 306 g and cost 3.65 at 11.93 per kg', () => {
  const { extraMassKg, extraCost } = partsOf(overWelding({ ...drawn, costPerKg: 11.93 }));
  expect(extraMassKg).toBeCloseTo(0.30615, 6);
  expect(extraCost).toBeCloseTo(3.6524, 4);
  expect(partsOf(overWelding(drawn)).extraCost).toBeNull();
});

it('refuses a weld smaller than drawn, and calls one of the drawn size no over-welding', () => {
  expect(overWelding({ ...drawn, laidThroatMm: 4.9 })).toMatchObject({
    refusal: { argument: 'laidThroatMm', allowed: 'not less than the drawn throat, 5 mm' },
  });
  expect(valueOf(overWelding({ ...drawn, laidThroatMm: 5 }))).toBe(0);
});

const size = fc.double({ min: 0.5, max: 50, noNaN: true });

it('independent: weighs as much as the laid weld less the drawn one', () => {
  fc.assert(
    fc.property(size, size, (one, other) => {
      const throats = { drawnThroatMm: Math.min(one, other), laidThroatMm: Math.max(one, other) };
      const mass = (throatMm: number) =>
        valueOf(depositedMass({ areaMm2: valueOf(filletArea({ throatMm })), lengthMm: 700 }));
      const { extraMassKg } = partsOf(overWelding({ ...throats, lengthMm: 700 }));
      const expected = mass(throats.laidThroatMm) - mass(throats.drawnThroatMm);
      expect(extraMassKg).toBeCloseTo(expected, 9);
    }),
  );
});

/** printed: ISO 5817:2003 (EN ISO 5817:2007) Table 1, Nos 1.9 and 1.10, every cell: at 10 mm, and the maximum. */
it.each([
  ['buttExcess', 'B', 2, 5],
  ['buttExcess', 'C', 2.5, 7],
  ['buttExcess', 'D', 3.5, 10],
  ['filletConvexity', 'B', 2, 3],
  ['filletConvexity', 'C', 2.5, 4],
  ['filletConvexity', 'D', 3.5, 5],
] as const)('printed: %s, level %s', (kind, qualityLevel, atTenMm, maxMm) => {
  expect(valueOf(excessLimit({ kind, qualityLevel, widthMm: 10 }))).toBeCloseTo(atTenMm, 10);
  expect(valueOf(excessLimit({ kind, qualityLevel, widthMm: 100 }))).toBe(maxMm);
});

it('refuses a quality level or a kind of weld that the table has not', () => {
  const cap = { kind: 'buttExcess', qualityLevel: 'B', widthMm: 10 } as const;
  expect(excessLimit({ ...cap, qualityLevel: 'A' as 'B' })).toMatchObject({
    refusal: { argument: 'qualityLevel', given: 'A' },
  });
  expect(excessLimit({ ...cap, kind: 'toString' as 'buttExcess' })).toMatchObject({
    refusal: { argument: 'kind', given: 'toString' },
  });
});

refusesTheImpossible(
  {
    leastFilletLeg: accepted(leastFilletLeg, plates),
    overWelding: accepted(overWelding, { ...drawn, costPerKg: 12, densityKgM3: 7850 }),
    excessLimit: accepted(excessLimit, { kind: 'buttExcess', qualityLevel: 'C', widthMm: 9 }),
  },
  { null: ['costPerKg'], nought: ['costPerKg'] },
);
