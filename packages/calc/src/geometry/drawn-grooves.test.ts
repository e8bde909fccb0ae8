import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import type { DrawnJoint, DrawnShape } from './drawn-shapes.js';
import { grooveArea, grooveShape, type Groove, type GrooveShape } from './groove.js';
import { holeArea } from './hole.js';
import { jointDrawing } from './joint-drawing.js';
import { bandOutline, grooveEdges, grooveOutlines } from './outlines.js';
import { bulgedLine, polygonArea, type Polygon } from './polygon.js';
import { preparedGroove } from './prepared-groove.js';

const plate = { thicknessMm: 12, gapMm: 2, rootFaceMm: 0 };
const square: Groove = { preparation: 'square', thicknessMm: 12, gapMm: 4 };
const singleV: Groove = { preparation: 'singleV', ...plate, includedAngleDeg: 60 };
const doubleV: Groove = { ...singleV, preparation: 'doubleV', thicknessMm: 20 };
const singleBevel: Groove = { preparation: 'singleBevel', ...plate, bevelAngleDeg: 45 };
const doubleBevel: Groove = { ...singleBevel, preparation: 'doubleBevel', thicknessMm: 20 };
const singleU: Groove = {
  ...{ preparation: 'singleU', thicknessMm: 25, gapMm: 2, rootFaceMm: 2 },
  ...{ bevelAngleDeg: 8, rootRadiusMm: 6 },
};
const tan30 = 1 / Math.sqrt(3);

function drawn(groove: Groove, laying: { laidAreaMm2?: number; runs?: number } = {}) {
  const result = jointDrawing({ joint: { form: 'groove', groove }, ...laying });
  if (!result.ok) throw new Error(JSON.stringify(result.refusal));
  const of = (role: DrawnShape['role']) =>
    result.drawing.shapes.filter((shape) => shape.role === role).map(({ points }) => points);
  return { ...result.drawing, of };
}

function shapeOf(groove: Groove): GrooveShape {
  const found = grooveShape(groove);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  return found.shape;
}

const rounded = (points: Polygon) =>
  points.map(({ x, y }) => [Number(x.toFixed(3)) + 0, Number(y.toFixed(3)) + 0]);
const sum = (values: readonly number[]) => values.reduce((all, one) => all + one, 0);
const ends = (line: Polygon | undefined) => rounded([line![0]!, line!.at(-1)!]);

describe('the plates of a groove', () => {
  it.each([
    ['square', square],
    ['V', singleV],
    ['double V', doubleV],
    ['bevel', singleBevel],
    ['double bevel', doubleBevel],
    ['U', singleU],
    ['V with its root face left open', { ...singleV, rootFaceMm: 4, penetrationMm: 9 }],
    ['double V with the middle left open', { ...doubleV, rootFaceMm: 6, penetrationMm: 8 }],
  ])('independent: with the metal and what stays open fill a rectangle (%s)', (_what, groove) => {
    const { of } = drawn(groove);
    const xs = of('part').flatMap((points) => points.map(({ x }) => x));
    const rectangle = (Math.max(...xs) - Math.min(...xs)) * groove.thicknessMm;
    const whole = { ...groove, penetrationMm: undefined };
    const filled = sum(of('part').map(polygonArea)) + valueOf(grooveArea(whole));
    expect(Math.abs(filled - rectangle)).toBeLessThan(0.01);
  });

  it('independent, by hand: a bevel of 45 deg in 12 mm leaves the left plate square', () => {
    // The right edge opens 12 mm beyond half the gap; each plate reaches 12 mm further, 25 from the middle.
    const [left, right] = drawn(singleBevel).of('part').map(rounded);
    expect(left).toEqual([
      [-1, 0],
      [-1, 12],
      [-1, 12],
      [-25, 12],
      [-25, 0],
    ]);
    expect(right).toEqual(
      expect.arrayContaining([
        [13, 0],
        [1, 12],
        [25, 12],
        [25, 0],
      ]),
    );
  });

  it('reaches back 10 mm where the plate is thinner than that', () => {
    const xs = drawn({ ...square, thicknessMm: 3 })
      .of('part')
      .flatMap((points) => points.map(({ x }) => x));
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([-12, 12]);
  });
});

describe('the edges of a groove', () => {
  it('independent, by hand: square and V edges run from the face to the root with as few points as they need', () => {
    expect(drawn(square).of('preparation').map(rounded)).toEqual([
      [
        [-2, 0],
        [-2, 12],
      ],
      [
        [2, 0],
        [2, 12],
      ],
    ]);
    const open = 1 + 8 * tan30;
    expect(rounded(drawn({ ...singleV, rootFaceMm: 4 }).of('preparation')[1]!)).toEqual([
      [Number(open.toFixed(3)), 0],
      [1, 8],
      [1, 12],
    ]);
  });

  it('independent, by hand: a band of a V is a trapezium, 4 mm x (2 + 2 x 6 tan 30)', () => {
    const band = bandOutline(grooveEdges(shapeOf(singleV)), 4, 8);
    expect(polygonArea(band)).toBeCloseTo(4 * (2 + 12 * tan30), 9);
    expect([...new Set(band.map(({ y }) => y))]).toEqual([4, 8]);
    const root = bandOutline(grooveEdges(shapeOf({ ...singleV, rootFaceMm: 4 })), 2, 12);
    // 10 mm of gap 2 mm wide, and above the root face a triangle of 6 mm on either side.
    expect(polygonArea(root)).toBeCloseTo(20 + 36 * tan30, 9);
    expect(root).toHaveLength(6);
  });

  it('independent, by hand: the lowest 3 mm of a U of 6 mm radius are 6 mm2 of gap and two pieces of its circle', () => {
    // Each piece is the integral of sqrt(36 - u^2) from 3 to 6: 9 pi - (1.5 sqrt 27 + 3 pi) = 11.055.
    const round: Groove = { ...singleU, rootFaceMm: 0, bevelAngleDeg: 0 };
    const band = bandOutline(grooveEdges(shapeOf(round), 2000), 22, 25);
    expect(polygonArea(band)).toBeCloseTo(6 + 2 * (6 * Math.PI - 1.5 * Math.sqrt(27)), 3);
  });

  it('independent: a V whose root face is the whole plate is a gap', () => {
    const blunt: Groove = { ...singleV, rootFaceMm: 12 };
    expect(sum(grooveOutlines(shapeOf(blunt), {}).map(polygonArea))).toBeCloseTo(24, 9);
    expect(drawn(blunt, { laidAreaMm2: 12 }).figures.laidFillMm).toBeCloseTo(6, 6);
  });

  it('independent: any two bands add up to the band of both', () => {
    const depth = fc.double({ min: 0, max: 25, noNaN: true });
    const edges = grooveEdges(shapeOf(singleU));
    fc.assert(
      fc.property(depth, depth, depth, (...depths) => {
        const [low, middle, high] = depths.toSorted((a, b) => a - b) as [number, number, number];
        const area = (from: number, to: number) => polygonArea(bandOutline(edges, from, to));
        expect(area(low, middle) + area(middle, high)).toBeCloseTo(area(low, high), 6);
      }),
    );
  });
});

describe('caps', () => {
  it('independent, by hand: lie outside both faces, on what each face is wide', () => {
    const caps = { faceCap: { heightMm: 2, widerByMm: 2 }, rootCap: { heightMm: 1 } };
    const [, face, root] = drawn({ ...singleBevel, ...caps }).of('metal');
    expect(ends(face)).toEqual([
      [-2, 0],
      [14, 0],
    ]);
    expect(Math.min(...face!.map(({ y }) => y))).toBeCloseTo(-2, 9);
    expect(ends(root)).toEqual([
      [-1, 12],
      [1, 12],
    ]);
    expect(Math.max(...root!.map(({ y }) => y))).toBeCloseTo(13, 9);
  });

  it('independent, by hand: of a double V both stand on 2 + 2 x 10 tan 30 mm, of a single one on face and gap', () => {
    const caps = { faceCap: { heightMm: 1 }, rootCap: { heightMm: 1 } };
    const wide = 2 + 20 * tan30;
    const both = partsOf(grooveArea({ ...doubleV, ...caps }));
    expect(both.capsMm2).toBeCloseTo((4 / 3) * wide, 9);
    expect([both.faceWidthMm, both.rootWidthMm]).toEqual([wide, wide].map(near));
    const one = partsOf(grooveArea({ ...singleV, ...caps }));
    expect(one.capsMm2).toBeCloseTo((2 / 3) * (2 + 24 * tan30 + 2), 9);
    expect(one.rootWidthMm).toBe(2);
    const u = partsOf(grooveArea(singleU));
    // 6 cos 8 = 5.9416; (23 - 6 (1 - sin 8)) tan 8 = 2.5067.
    expect(u.faceWidthMm).toBeCloseTo(2 + 2 * (5.9416 + 2.5067), 3);
  });

  it('independent: a parabola of 8 points lies under its crown and ends short of its ends', () => {
    const arc = bulgedLine({ x: 0, y: 0 }, { x: 8, y: 0 }, 2, 8);
    expect(arc.map(({ x }) => x)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(arc.map(({ x, y }) => y + (x * (8 - x)) / 8)).toEqual(arc.map(() => near(0)));
    expect(bulgedLine({ x: 0, y: 0 }, { x: 8, y: 0 }, 0, 8)).toEqual([]);
    expect(bulgedLine({ x: 3, y: 3 }, { x: 3, y: 3 }, 2, 8)).toEqual([]);
  });
});

function near(value: number): number {
  return expect.closeTo(value, 9) as number;
}

describe('what the settings lay in a groove', () => {
  it('independent: half the metal of a double V without gap fills each side to 10 / sqrt 2', () => {
    const groove = { ...doubleV, gapMm: 0 };
    const laidAreaMm2 = valueOf(grooveArea(groove)) / 2;
    const { figures, of } = drawn(groove, { laidAreaMm2 });
    expect(figures.laidFillMm).toBeCloseTo(10 / Math.SQRT2, 6);
    expect(of('laid').map((line) => line[0]!.y)).toEqual(
      [10 - 10 / Math.SQRT2, 10 + 10 / Math.SQRT2].map((y) => expect.closeTo(y, 6) as number),
    );
  });

  it('independent: overfilled by 20 mm2, a double V carries 10 mm2 on each face', () => {
    const wide = 2 + 20 * tan30;
    const heightMm = (1.5 * 10) / wide;
    const laidAreaMm2 = valueOf(grooveArea(doubleV)) + 20;
    const [top, bottom, ...more] = drawn(doubleV, { laidAreaMm2 }).of('laid');
    expect(more).toEqual([]);
    expect(Math.min(...top!.map(({ y }) => y))).toBeCloseTo(-heightMm, 9);
    expect(Math.max(...bottom!.map(({ y }) => y))).toBeCloseTo(20 + heightMm, 9);
    expect(drawn(singleV, { laidAreaMm2: 500 }).of('laid')).toHaveLength(1);
  });

  it('fills a groove just full with no cap, and draws nothing of what is not known or has no room', () => {
    expect(drawn(square, { laidAreaMm2: 48 }).figures.laidFillMm).toBeCloseTo(12, 6);
    expect(drawn(square).of('laid')).toEqual([]);
    expect(drawn(square).of('run')).toEqual([]);
    const closed = drawn({ ...square, gapMm: 0 }, { laidAreaMm2: 20 });
    expect(closed.of('laid')).toEqual([]);
    expect(closed.figures.laidFillMm).toBeNull();
  });

  it('independent: runs share what lies in the groove, not its caps', () => {
    const capped: Groove = { ...square, faceCap: { heightMm: 2 } };
    const [line] = drawn(capped, { runs: 2 }).of('run');
    expect(rounded(line!)).toEqual([
      [-2, 6],
      [2, 6],
    ]);
  });

  it('refuses an area that is none, and leaves a little paper round the drawing', () => {
    const joint: DrawnJoint = { form: 'groove', groove: square };
    expect(jointDrawing({ joint, laidAreaMm2: 0 })).toMatchObject({
      refusal: { argument: 'laidAreaMm2', given: 0 },
    });
    // 28 mm wide, from -14 to 14; a twenty-fifth of that on every side.
    expect(drawn(square).view).toEqual({
      ...{ x: near(-15.12), y: near(-1.12) },
      ...{ widthMm: near(30.24), heightMm: near(14.24) },
    });
  });
});

describe('a groove that cannot be', () => {
  const refusal = (groove: object) => {
    const area = grooveArea(groove as Groove);
    return area.ok ? null : [area.refusal.argument, area.refusal.allowed];
  };

  it('is refused by its caps', () => {
    const odd = ['a number from 0 to 1000 mm'];
    expect(refusal({ ...square, faceCap: { heightMm: -1 } })).toEqual(['faceCap.heightMm', ...odd]);
    expect(refusal({ ...square, rootCap: { heightMm: 1, widerByMm: -1 } })).toEqual([
      ...['rootCap.widerByMm', ...odd],
    ]);
    expect(refusal({ ...square, faceCap: null })?.[0]).toBe('faceCap.heightMm');
  });

  it('has a far side to cap only where the weld reaches it', () => {
    const rootCap = { heightMm: 1 };
    expect(refusal({ ...square, penetrationMm: 12, rootCap })).toBeNull();
    expect(refusal({ ...square, penetrationMm: 9 })).toBeNull();
    expect(refusal({ ...doubleV, rootFaceMm: 6, penetrationMm: 8, rootCap })).toBeNull();
    expect(refusal({ ...square, penetrationMm: 9, rootCap })).toEqual([
      ...['rootCap', 'left out where the weld does not reach the far side'],
    ]);
  });

  it('independent, by hand: holds a root radius of 10 / (1 - sin 20) = 15.2 mm in a cut of 10 mm', () => {
    const u = { preparation: 'singleU', thicknessMm: 12, gapMm: 2, rootFaceMm: 2 };
    const radius = (rootRadiusMm: number, bevelAngleDeg = 20) =>
      refusal({ ...u, bevelAngleDeg, rootRadiusMm });
    expect(radius(15.1)).toBeNull();
    expect(radius(10, 0)).toBeNull();
    expect(radius(15.3)?.[1]).toMatch(/^not more than 15\.198\d* mm/);
  });
});

describe('a preparation of the weld list', () => {
  const preparation = {
    ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2 },
    ...{ angleDeg: 60, rootRadiusMm: 4, capHeightMm: 0 },
  };
  const made = (changes: object, depthMm: number | null = null) =>
    preparedGroove({ thicknessMm: 12, depthMm, preparation: { ...preparation, ...changes } });
  const plain = { thicknessMm: 12, gapMm: 2, rootFaceMm: 2 };

  it('becomes the groove with what its kind has, and nothing else', () => {
    expect(made({})).toEqual({ preparation: 'singleV', ...plain, includedAngleDeg: 60 });
    expect(made({ kind: 'square' })).toEqual({
      ...{ preparation: 'square', thicknessMm: 12, gapMm: 2 },
    });
    expect(made({ kind: 'singleJ', angleDeg: 20 })).toEqual({
      ...{ preparation: 'singleJ', ...plain, bevelAngleDeg: 20, rootRadiusMm: 4 },
    });
  });

  it('is capped on every welded side, and not at nought', () => {
    const cap = { heightMm: 1 };
    expect(made({ capHeightMm: 1 })).toEqual({
      ...{ preparation: 'singleV', ...plain, includedAngleDeg: 60, faceCap: cap },
    });
    for (const kind of ['doubleV', 'doubleBevel'])
      expect(made({ kind, capHeightMm: 1 })).toMatchObject({ faceCap: cap, rootCap: cap });
  });

  it('is filled to a depth only from one side, and only where that is less than the plate', () => {
    expect(made({}, 10)).toHaveProperty('penetrationMm', 10);
    for (const whole of [12, 14]) expect(made({}, whole)).not.toHaveProperty('penetrationMm');
    expect(made({ kind: 'doubleV' }, 10)).not.toHaveProperty('penetrationMm');
  });
});

it('names the unit of a hole and what it rests on', () => {
  expect(holeArea({ widthMm: 20, lengthMm: 20 })).toMatchObject({
    ...{ unit: 'mm2', sources: ['geometry', 'iso2553'] },
  });
});
