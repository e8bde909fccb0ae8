import { describe, expect, it } from 'vitest';
import { valueOf } from '../testing/value-of.js';
import { grooveArea } from './groove.js';
import { preparedGroove, type GroovePreparation } from './prepared-groove.js';

const preparation: GroovePreparation = {
  kind: 'singleV',
  gapMm: 2,
  rootFaceMm: 2,
  angleDeg: 60,
  rootRadiusMm: 4,
  capHeightMm: 0,
};
const area = (changes: Partial<GroovePreparation>, depthMm: number | null = null) =>
  grooveArea(
    preparedGroove({ thicknessMm: 12, depthMm, preparation: { ...preparation, ...changes } }),
  );

/** Triangles and rectangles of a 12 mm plate, added by hand: tan 30° is 0.57735, tan 45° is 1. */
describe('a groove of a weld list', () => {
  it.each<[what: string, changes: Partial<GroovePreparation>, areaMm2: number]>([
    ['square: 12 x 2', { kind: 'square' }, 24],
    ['V: 24 + 10² x tan 30°', {}, 24 + 100 * Math.tan(Math.PI / 6)],
    ['double V: 24 + 2 x 5² x tan 30°', { kind: 'doubleV' }, 24 + 50 * Math.tan(Math.PI / 6)],
    ['bevel: 24 + 10² / 2', { kind: 'singleBevel', angleDeg: 45 }, 74],
    ['double bevel: 24 + 2 x 5² / 2', { kind: 'doubleBevel', angleDeg: 45 }, 49],
    [
      'U: 24 + 2 x (quarter of r = 4, then 6 x 4)',
      { kind: 'singleU', angleDeg: 0 },
      72 + 8 * Math.PI,
    ],
    ['J: half the cut of the U', { kind: 'singleJ', angleDeg: 0 }, 48 + 4 * Math.PI],
    ['square with a cap of 2/3 x 2 x 1', { kind: 'square', capHeightMm: 1 }, 24 + 4 / 3],
  ])('independent: %s', (_what, changes, areaMm2) => {
    expect(valueOf(area(changes))).toBeCloseTo(areaMm2, 9);
  });

  it('independent: a weld of 10 mm in a square gap of 2 mm has 20 mm²', () => {
    expect(valueOf(area({ kind: 'square' }, 10))).toBeCloseTo(20, 9);
  });

  it.each<[what: string, changes: Partial<GroovePreparation>, argument: string]>([
    ['a root face thicker than the plate', { rootFaceMm: 13 }, 'rootFaceMm'],
    ['an included angle of 180 degrees', { angleDeg: 180 }, 'includedAngleDeg'],
    ['a bevel of 90 degrees', { kind: 'singleBevel', angleDeg: 90 }, 'bevelAngleDeg'],
    [
      'a radius that the depth does not hold',
      { kind: 'singleU', angleDeg: 0, rootRadiusMm: 11 },
      'rootRadiusMm',
    ],
  ])('refuses %s', (_what, changes, argument) => {
    expect(area(changes)).toMatchObject({ ok: false, refusal: { argument } });
  });
});
