import fc from 'fast-check';
import { expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import { filletSection, filletShape, type FilletSection } from './fillet-section.js';
import { grooveArea, grooveShape, type Groove } from './groove.js';
import { filletOutline, grooveOutlines } from './outlines.js';
import { polygonArea } from './polygon.js';

const pieces = 2000;

function outlinedGroove(groove: Groove): number {
  const found = grooveShape(groove);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const outlines = grooveOutlines(found.shape, groove, pieces);
  return outlines.reduce((sum, outline) => sum + polygonArea(outline), 0);
}

function outlinedFillet(fillet: FilletSection): number {
  const found = filletShape(fillet);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  return polygonArea(filletOutline(found.shape, pieces));
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const cap = fc.option(fc.record({ heightMm: between(0, 4), widerByMm: between(0, 5) }), {
  nil: undefined,
});
const plate = {
  thicknessMm: between(4, 60),
  gapMm: between(0, 6),
  faceCap: cap,
  rootCap: cap,
};
const faced = { ...plate, rootFaceMm: between(0, 4) };
const grooves: Record<string, fc.Arbitrary<Groove>> = {
  square: fc.record({ preparation: fc.constant('square' as const), ...plate }),
  V: fc.record({
    preparation: fc.constantFrom('singleV' as const, 'doubleV' as const),
    includedAngleDeg: between(1, 120),
    ...faced,
  }),
  bevel: fc.record({
    preparation: fc.constantFrom('singleBevel' as const, 'doubleBevel' as const),
    bevelAngleDeg: between(1, 70),
    ...faced,
  }),
  'U or J': fc.record({
    preparation: fc.constantFrom('singleU' as const, 'singleJ' as const),
    bevelAngleDeg: between(0, 40),
    rootRadiusMm: between(0.5, 8),
    ...faced,
    thicknessMm: between(13, 80),
  }),
};

it.each(Object.entries(grooves))(
  'independent: the outline of any %s groove encloses the area of its closed form',
  (_name, groove) => {
    fc.assert(
      fc.property(groove, (one) => {
        const closed = valueOf(grooveArea(one));
        expect(Math.abs(outlinedGroove(one) - closed)).toBeLessThanOrEqual(1e-4 + closed * 2e-6);
      }),
    );
  },
);

it.each([
  ['U', { preparation: 'singleU' as const, rootRadiusMm: 6, bevelAngleDeg: 8 }],
  ['V', { preparation: 'singleV' as const, includedAngleDeg: 60 }],
  ['double bevel', { preparation: 'doubleBevel' as const, bevelAngleDeg: 45 }],
])('independent: a %s of partial penetration encloses what its closed form says', (_name, rest) => {
  const whole = { ...rest, thicknessMm: 25, gapMm: 2, rootFaceMm: 7 } as Groove;
  const partial = { ...whole, penetrationMm: whole.preparation === 'doubleBevel' ? 10 : 20 };
  expect(Math.abs(outlinedGroove(partial) - valueOf(grooveArea(partial)))).toBeLessThan(1e-4);
  // The root gap is 2 mm wide and 5 mm of it stay open.
  expect(valueOf(grooveArea(whole)) - valueOf(grooveArea(partial))).toBeCloseTo(10, 9);
});

it('independent: the outline of any fillet encloses the area of its closed form', () => {
  const fillet = fc.record({
    legMm: between(3, 30),
    secondLegMm: between(3, 30),
    gapMm: between(0, 3),
    profile: fc.constantFrom('convex' as const, 'concave' as const),
    share: between(0, 0.9),
  });
  fc.assert(
    fc.property(fillet, ({ share, ...size }) => {
      const flat = partsOf(filletSection({ ...size, profile: 'flat' }));
      const riseMm = size.legMm + size.gapMm;
      const steepness = Math.min(riseMm / size.secondLegMm, size.secondLegMm / riseMm);
      const one = { ...size, bulgeMm: (share * flat.faceWidthMm * steepness) / 4 };
      const closed = valueOf(filletSection(one));
      expect(Math.abs(outlinedFillet(one) - closed)).toBeLessThanOrEqual(closed * 2e-6);
    }),
  );
});
