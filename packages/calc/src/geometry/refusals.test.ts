import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { intermittentLength, weldDeposit } from './deposit.js';
import { filletSection } from './fillet-section.js';
import { grooveArea, type Groove } from './groove.js';

const plate = { thicknessMm: 20, gapMm: 2, rootFaceMm: 2 };

refusesTheImpossible({
  weldDeposit: accepted(weldDeposit, { areaMm2: 16, lengthMm: 960, count: 4, metal: 'stainless' }),
  intermittentLength: accepted(intermittentLength, { count: 3, pieceMm: 50, spaceMm: 100 }),
  filletSection: accepted(filletSection, {
    ...{ legMm: 6, secondLegMm: 8, gapMm: 1 },
    ...{ bulgeMm: 0.5, profile: 'convex' },
  }),
  square: accepted(grooveArea, { preparation: 'square', thicknessMm: 4, gapMm: 2 }),
  singleV: accepted(grooveArea, { preparation: 'singleV', ...plate, includedAngleDeg: 60 }),
  doubleV: accepted(grooveArea, {
    ...{ preparation: 'doubleV', ...plate, includedAngleDeg: 60 },
    penetrationMm: 10,
  }),
  doubleBevel: accepted(grooveArea, { preparation: 'doubleBevel', ...plate, bevelAngleDeg: 45 }),
  singleU: accepted(grooveArea, {
    ...{ preparation: 'singleU', ...plate },
    ...{ bevelAngleDeg: 8, rootRadiusMm: 6 },
  }),
});

/** Joints that nobody can cut or weld; each names the argument and what it may be. */
it.each<[what: string, groove: object, argument: string, allowed: string]>([
  [
    'a root face thicker than the plate',
    { preparation: 'singleV', thicknessMm: 10, gapMm: 2, rootFaceMm: 12, includedAngleDeg: 60 },
    ...(['rootFaceMm', 'a number from 0 to 10 mm'] as const),
  ],
  [
    'an included angle of 180 degrees',
    { preparation: 'doubleV', thicknessMm: 10, gapMm: 2, rootFaceMm: 1, includedAngleDeg: 180 },
    ...(['includedAngleDeg', 'a number from 1 to 170 deg'] as const),
  ],
  [
    'a bevel of 90 degrees',
    { preparation: 'singleBevel', thicknessMm: 10, gapMm: 2, rootFaceMm: 1, bevelAngleDeg: 90 },
    ...(['bevelAngleDeg', 'a number from 1 to 85 deg'] as const),
  ],
  [
    'a root radius deeper than the preparation',
    {
      ...{ preparation: 'singleU', thicknessMm: 8, gapMm: 2, rootFaceMm: 2 },
      ...{ bevelAngleDeg: 0, rootRadiusMm: 7 },
    },
    ...([
      'rootRadiusMm',
      'not more than 6 mm, the depth of the preparation leaves no more',
    ] as const),
  ],
  [
    'a penetration that does not reach the root of the preparation',
    {
      ...{ preparation: 'singleV', thicknessMm: 20, gapMm: 2, rootFaceMm: 2 },
      ...{ includedAngleDeg: 60, penetrationMm: 15 },
    },
    ...(['penetrationMm', 'a number from 18 to 20 mm'] as const),
  ],
  [
    'a cap on a root that is not reached',
    {
      ...{ preparation: 'singleV', thicknessMm: 20, gapMm: 2, rootFaceMm: 6 },
      ...{ includedAngleDeg: 60, penetrationMm: 15, rootCap: { heightMm: 1 } },
    },
    ...(['rootCap', 'left out where the weld does not reach the far side'] as const),
  ],
  [
    'a cap of negative height',
    { preparation: 'square', thicknessMm: 4, gapMm: 2, faceCap: { heightMm: -1 } },
    ...(['faceCap.heightMm', 'a number from 0 to 1000 mm'] as const),
  ],
  [
    'a preparation that there is not',
    { preparation: 'singleW', thicknessMm: 4, gapMm: 2 },
    ...([
      'preparation',
      'one of square, singleV, doubleV, singleBevel, doubleBevel, singleU, singleJ',
    ] as const),
  ],
])('refuses %s', (_what, groove, argument, allowed) => {
  expect(grooveArea(groove as Groove)).toMatchObject({ ok: false, refusal: { argument, allowed } });
});

it.each([
  [
    'a bulge on a flat face',
    { legMm: 6, bulgeMm: 1 },
    ...(['bulgeMm', /^0 on a flat face: call the profile convex or concave$/] as const),
  ],
  [
    'a concavity that cuts into a part',
    { legMm: 6, profile: 'concave', bulgeMm: 2.2 },
    ...(['bulgeMm', /^not more than 2\.121\d+ mm, or the face would cut into a part$/] as const),
  ],
  [
    'a face that there is not',
    { legMm: 6, profile: 'wavy' },
    ...(['profile', /^one of flat, convex, concave$/] as const),
  ],
] as const)('refuses %s', (_what, fillet, argument, allowed) => {
  expect(filletSection(fillet as Parameters<typeof filletSection>[0])).toMatchObject({
    refusal: { argument, allowed: expect.stringMatching(allowed) as string },
  });
});

it('independent: a face of z6 x z8 with a gap of 2 mm may be hollow by a quarter of 8 x sqrt 2, a square', () => {
  // Rise 6 + 2 = 8 and run 8: both surfaces meet the face at 45 degrees, and tan 45 x 11.3137 / 4 = 2.8284.
  const hollow = { legMm: 6, secondLegMm: 8, gapMm: 2, profile: 'concave' } as const;
  expect(filletSection({ ...hollow, bulgeMm: 2.8284 })).toMatchObject({ ok: true });
  expect(filletSection({ ...hollow, bulgeMm: 2.8285 })).toMatchObject({ ok: false });
  // Rise 6, run 8, face 10: 10 / 4 x 6 / 8 = 1.875 exactly, whichever leg is the longer one.
  for (const legs of [
    { legMm: 6, secondLegMm: 8 },
    { legMm: 8, secondLegMm: 6 },
  ]) {
    expect(filletSection({ ...legs, profile: 'concave', bulgeMm: 1.875 })).toMatchObject({
      ok: true,
    });
    expect(filletSection({ ...legs, profile: 'concave', bulgeMm: 1.8751 })).toMatchObject({
      refusal: { argument: 'bulgeMm', given: 1.8751 },
    });
  }
});

it('names the work behind the bulge where there is one, and warns of a gap where there is one', () => {
  expect(filletSection({ legMm: 6 })).toMatchObject({
    sources: ['geometry', 'weldVolume'],
    warnings: [],
  });
  expect(filletSection({ legMm: 6, profile: 'convex', bulgeMm: 0.5 })).toMatchObject({
    sources: ['geometry', 'weldVolume', 'capShape'],
    warnings: [],
  });
  expect(filletSection({ legMm: 6, gapMm: 1 })).toMatchObject({
    warnings: [{ code: 'gapFirstEstimate', given: 1 }],
  });
});

it('refuses a metal without a density', () => {
  const weld = { areaMm2: 16, lengthMm: 100, count: 1, metal: 'cheese' as 'steel' };
  expect(weldDeposit(weld)).toMatchObject({
    refusal: { argument: 'metal', allowed: 'one of steel, stainless, aluminium' },
  });
});
