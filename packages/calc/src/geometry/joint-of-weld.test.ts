import { describe, expect, it } from 'vitest';
import { grooveArea } from './groove.js';
import { jointDrawing } from './joint-drawing.js';
import { jointOfWeld, laidAreaOf } from './joint-of-weld.js';
import { svgPath } from './svg-path.js';

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

  it.each(['corner', 'plug'] as const)('makes nothing of a %s weld', (jointType) => {
    expect(jointOfWeld({ ...weld, jointType }, null)).toBeNull();
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
