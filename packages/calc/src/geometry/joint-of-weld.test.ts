import { describe, expect, it } from 'vitest';
import { filletArea } from './fillet.js';
import { grooveArea } from './groove.js';
import { holeArea } from './hole.js';
import { jointDrawing } from './joint-drawing.js';
import { filletOfWeld, holeOfWeld, jointOfWeld, laidAreaOf } from './joint-of-weld.js';
import { svgPath } from './svg-path.js';
import { valueOf } from '../testing/value-of.js';

const weld = {
  jointType: 'fillet' as const,
  throatMm: 4,
  legMm: null,
  grooveDepthMm: null,
  thicknessAMm: 8,
  thicknessBMm: 10,
};
const butt = { ...weld, jointType: 'butt' as const, throatMm: null };
const preparation = {
  ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 0 },
  ...{ angleDeg: 60, rootRadiusMm: 6, capHeightMm: 0, backing: 'none' as const },
};

describe('an outside corner', () => {
  const corner = { ...weld, jointType: 'corner', throatMm: null };

  it('independent, as a groove: equal parts filled to their edges are a V of 90 deg, t / sqrt 2 deep', () => {
    const fillet = filletOfWeld({ ...corner, thicknessBMm: 8 });
    const groove = { preparation: 'singleV' as const, gapMm: 0, rootFaceMm: 0 };
    const thicknessMm = 8 / Math.SQRT2;
    expect(valueOf(filletArea(fillet!))).toBeCloseTo(
      valueOf(grooveArea({ ...groove, thicknessMm, includedAngleDeg: 90 })),
      9,
    );
  });

  it('independent, by hand: parts of 8 and 10 mm hold half the notch between them, 8 x 10 / 2 mm2', () => {
    expect(valueOf(filletArea(filletOfWeld(corner)!))).toBe(40);
    expect(filletOfWeld({ ...corner, legMm: 5 })).toEqual({ legMm: 5 });
  });

  it('independent: its parts touch at the inner edges, and its metal ends at the outer ones', () => {
    const drawing = jointDrawing({ joint: jointOfWeld(corner, null)! });
    const shapes = drawing.ok ? drawing.drawing.shapes : [];
    const corners = (role: string) =>
      shapes.filter((shape) => shape.role === role).map(({ points }) => points);
    // A lies to the left, 8 mm thick; B hangs below, 10 mm thick; each reaches 10 mm and twice its thickness.
    const box = (left: number, top: number, right: number, bottom: number) => [
      { x: left, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: left, y: bottom },
    ];
    expect(corners('part')).toEqual([box(-26, -8, 0, -0), box(0, 0, 10, 30)]);
    const [metal] = corners('metal');
    expect(metal).toContainEqual({ x: 0, y: -8 });
    expect(metal).toContainEqual({ x: 10, y: 0 });
  });

  it('is not drawn with a leg longer than the edge of either part', () => {
    const refusal = (fillet: { legMm: number; secondLegMm?: number }) => {
      const joint = { form: 'corner' as const, thicknessAMm: 8, thicknessBMm: 10, fillet };
      const drawing = jointDrawing({ joint });
      return drawing.ok ? null : drawing.refusal;
    };
    expect(refusal({ legMm: 8, secondLegMm: 10 })).toBeNull();
    expect(refusal({ legMm: 9 })).toEqual({
      ...{ argument: 'legMm', given: 9, allowed: 'not more than the edge it stands on, 8 mm' },
    });
    expect(refusal({ legMm: 8, secondLegMm: 11 })).toEqual({
      ...{ argument: 'secondLegMm', given: 11 },
      allowed: 'not more than the edge it stands on, 10 mm',
    });
  });
});

describe('a plug weld', () => {
  const plug = { ...weld, jointType: 'plug', throatMm: null, lengthMm: 40, holeWidthMm: 12 };

  it('independent, by hand: a round hole of 20 mm is 100 pi mm2, a slot of 12 x 40 mm 336 + 36 pi', () => {
    expect(valueOf(holeArea({ widthMm: 20, lengthMm: 20 }))).toBeCloseTo(314.159, 3);
    expect(valueOf(holeArea({ widthMm: 12, lengthMm: 40 }))).toBeCloseTo(449.097, 3);
  });

  it('independent: the hole is the sum of its strips across', () => {
    const [widthMm, lengthMm, strips] = [12, 40, 200_000];
    const [radius, straight] = [widthMm / 2, (lengthMm - widthMm) / 2];
    const strip = lengthMm / strips;
    let summed = 0;
    for (let at = 0; at < strips; at += 1) {
      const x = Math.abs(-lengthMm / 2 + (at + 0.5) * strip);
      const past = Math.max(0, x - straight);
      summed += 2 * Math.sqrt(radius ** 2 - past ** 2) * strip;
    }
    expect(valueOf(holeArea({ widthMm, lengthMm }))).toBeCloseTo(summed, 3);
  });

  it('refuses a slot wider than it is long, and a hole without size', () => {
    expect(holeArea({ widthMm: 21, lengthMm: 20 })).toMatchObject({
      refusal: { argument: 'widthMm', given: 21, allowed: 'a number from 0.1 to 20 mm' },
    });
    expect(holeArea({ widthMm: 2, lengthMm: 0 })).toMatchObject({
      refusal: { argument: 'lengthMm', given: 0 },
    });
  });

  it('independent, by hand: a slot of 12 x 40 mm through part A of 8 mm holds 449.1 x 8 = 3592.8 mm3', () => {
    const { hole, depthMm } = holeOfWeld(plug)!;
    expect(valueOf(holeArea(hole)) * depthMm).toBeCloseTo(3592.78, 2);
  });

  it('fills the hole of part A through, or as deep as the row says', () => {
    const hole = { widthMm: 12, lengthMm: 40 };
    expect(holeOfWeld(plug)).toEqual({ hole, depthMm: 8 });
    expect(holeOfWeld({ ...plug, grooveDepthMm: 5 })).toEqual({ hole, depthMm: 5 });
    expect(holeOfWeld({ ...plug, holeWidthMm: null })).toBeNull();
    expect(holeOfWeld({ ...plug, jointType: 'butt' })).toBeNull();
  });
});

describe('jointOfWeld', () => {
  it('stands a fillet up and lays a lap down', () => {
    expect(jointOfWeld(weld, null)).toEqual({
      form: 'tee',
      thicknessAMm: 8,
      thicknessBMm: 10,
      fillet: { throatMm: 4 },
    });
    expect(jointOfWeld({ ...weld, jointType: 'lap' }, null)).toMatchObject({ form: 'lap' });
  });

  it('independent, by hand: makes the chosen groove of a butt weld, in the thinner plate', () => {
    // 2 x 8 + 8^2 tan 30 = 52.95 mm2.
    const joint = jointOfWeld(butt, preparation);
    const area = joint?.form === 'groove' ? grooveArea(joint.groove) : null;
    expect(area?.ok ? area.value : null).toBeCloseTo(52.95, 2);
  });

  it('draws square edges while nobody has said the preparation, as deep as the list says', () => {
    expect(jointOfWeld({ ...butt, grooveDepthMm: 5 }, null)).toMatchObject({
      groove: { preparation: 'square', thicknessMm: 8, gapMm: 0, penetrationMm: 5 },
    });
  });

  it('makes nothing of a plug weld', () => {
    expect(jointOfWeld({ ...weld, jointType: 'plug' }, null)).toBeNull();
    expect(filletOfWeld({ ...weld, jointType: 'plug' })).toBeNull();
  });

  it('makes nothing of a fillet, a lap or a corner of some depth that has no size', () => {
    const sizeless = { ...weld, throatMm: null };
    expect(jointOfWeld(sizeless, null)).toBeNull();
    expect(jointOfWeld({ ...sizeless, jointType: 'lap' }, null)).toBeNull();
    expect(jointOfWeld({ ...sizeless, jointType: 'corner', grooveDepthMm: 3 }, null)).toBeNull();
  });

  it('takes the throat of a row before its leg, and the leg where there is no throat', () => {
    expect(filletOfWeld({ ...weld, legMm: 6 })).toEqual({ throatMm: 4 });
    expect(filletOfWeld({ ...weld, throatMm: null, legMm: 6 })).toEqual({ legMm: 6 });
    expect(filletOfWeld({ ...weld, jointType: 'butt' })).toBeNull();
  });

  it('can draw every preparation with a two-sided weld left whole', () => {
    const kinds = [
      'square',
      'doubleV',
      'singleBevel',
      'doubleBevel',
      'singleU',
      'singleJ',
    ] as const;
    for (const kind of kinds) {
      const thick = { ...butt, thicknessAMm: 25, thicknessBMm: 25 };
      const joint = jointOfWeld(thick, { ...preparation, kind, angleDeg: 20 });
      expect(joint && jointDrawing({ joint, laidAreaMm2: 20 }), kind).toMatchObject({ ok: true });
    }
  });
});

it('independent, by hand: takes the laid area from the settings, 1.131 mm2 x 9000 x 0.96 / 520 = 18.79 mm2', () => {
  const dialled = { wireDiameterMm: 1.2, wireSpeedMMin: 9, travelMmMin: 520 };
  expect(laidAreaOf(dialled)).toBeCloseTo(18.79, 2);
  expect(laidAreaOf({ ...dialled, wireSpeedMMin: null })).toBeNull();
  expect(laidAreaOf(null)).toBeNull();
});

it('independent, by the grammar of SVG paths: writes a shape to a thousandth of a millimetre', () => {
  const points = [
    { x: 0, y: 0 },
    { x: 1 / 3, y: -2 },
  ];
  expect(svgPath({ role: 'metal', points, closed: true })).toBe('M0 0 L0.333 -2 Z');
  expect(svgPath({ role: 'run', points, closed: false })).toBe('M0 0 L0.333 -2');
});
