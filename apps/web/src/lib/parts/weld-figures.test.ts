import { describe, expect, it } from 'vitest';
import { weldFigures } from './weld-figures.js';

const weld = {
  number: 1,
  jointType: 'fillet' as const,
  throatMm: 4,
  legMm: null,
  grooveDepthMm: null,
  holeWidthMm: null,
  preparation: null,
  lengthMm: 300,
  count: 2,
  thicknessAMm: 8,
  thicknessBMm: 8,
  materialA: 'S235',
  materialB: 'S235',
  materialGroupA: '1.1',
  materialGroupB: '1.1',
  position: 'PB' as const,
  process: '135',
  stepNumber: 10,
  qualityLevel: 'C' as const,
  sizeUnderMm: null,
  sizeOverMm: null,
  notes: '',
};
const wire = { wireDiameterMm: 1.2, wireSpeedMMin: 9 };
const steps = [
  {
    number: 10,
    setUps: [
      { cellCode: 'R1', travelMmMin: 600, ...wire, frozenAt: '2026-03-14T08:00:00.000Z' },
      { cellCode: 'B1', travelMmMin: 300, ...wire, frozenAt: '2026-01-14T08:00:00.000Z' },
      { cellCode: 'B2', travelMmMin: null, ...wire, frozenAt: '2026-05-14T08:00:00.000Z' },
    ],
  },
];

describe('weldFigures', () => {
  it('independent: takes the area of a butt weld from its preparation: 2 x 8 + 6² x tan 30° = 36.785 mm²', () => {
    const preparation = {
      ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60 },
      ...{ rootRadiusMm: 0, capHeightMm: 0, backing: 'none' as const },
    } as const;
    const butt = { ...weld, jointType: 'butt' as const, throatMm: null };
    const figures = weldFigures({ ...butt, preparation }, steps);
    expect(figures.areaMm2).toBeCloseTo(36.785, 3);
    // 36.785 mm² x 600 mm x 7850e-9 kg/mm³.
    expect(figures.depositG).toBeCloseTo(173.26, 2);
    expect(weldFigures({ ...butt, preparation: null }, steps).areaMm2).toBeNull();
    // One run lays π/4 x 1.2² x 9000 x 0.96 / 600 = 16.286 mm²: 2.2587 runs over 600 mm at 600 mm/min.
    expect(figures.arcS).toBeCloseTo(60 * (36.785 / 16.286), 2);
  });

  it('takes the travel of the newest set-up that has one (time = length / travel)', () => {
    // 2 x 300 mm at 600 mm/min is one minute; a = 4 gives 16 mm2; 16 x 600 x 7850e-9 kg = 75.36 g.
    const figures = weldFigures(weld, steps);
    expect(figures).toMatchObject({ areaMm2: 16, travelMmMin: 600, cellCode: 'R1' });
    expect(figures.arcS).toBeCloseTo(60, 9);
    expect(figures.depositG).toBeCloseTo(75.36, 9);
  });
  it('independent: fills an open corner of 8 and 6 mm to its edges: 8 x 6 / 2 = 24 mm², 113.04 g on 600 mm', () => {
    const corner = { ...weld, jointType: 'corner' as const, throatMm: null, thicknessBMm: 6 };
    const figures = weldFigures(corner, steps);
    expect(figures.areaMm2).toBe(24);
    expect(figures.depositG).toBeCloseTo(113.04, 9);
    expect(figures.arcS).toBeCloseTo(60, 9);
    expect(figures.explained[0]!.formula).toContain('8 × 6 / 2 = 24 mm²');
  });
  it('independent: fills two round holes of 20 mm in 8 mm plate: 100 π mm² x 16 mm x 7850e-9 = 39.46 g', () => {
    const plug = { ...weld, jointType: 'plug' as const, throatMm: null, lengthMm: 20 };
    const figures = weldFigures({ ...plug, holeWidthMm: 20 }, steps);
    expect(figures.areaMm2).toBeCloseTo(314.159, 3);
    expect(figures.depositG).toBeCloseTo(39.4584, 4);
    // A run of 16.286 mm² fills 5026.55 mm³ on 308.64 mm, at 600 mm/min in 30.86 s.
    expect(figures.arcS).toBeCloseTo(30.864, 3);
    expect(figures.explained[0]!.formula).toContain('20 × (20 − 20) + π/4 × 20² = 314.159 mm²');
  });
  it('says no time of a plug weld while its hole or the wire is not on file', () => {
    const plug = { ...weld, jointType: 'plug' as const, throatMm: null, lengthMm: 20 };
    expect(weldFigures(plug, steps)).toMatchObject({ areaMm2: null, depositG: null, arcS: null });
    const bare = [{ number: 10, setUps: [{ ...steps[0]!.setUps[0]!, wireSpeedMMin: null }] }];
    expect(weldFigures({ ...plug, holeWidthMm: 20 }, bare).arcS).toBeNull();
  });
  it('takes a lap for the fillet that it is', () => {
    expect(weldFigures({ ...weld, jointType: 'lap' }, steps).areaMm2).toBe(16);
  });
  it('takes the leg where there is no throat (area = z x z / 2)', () => {
    expect(weldFigures({ ...weld, throatMm: null, legMm: 6 }, steps).areaMm2).toBe(18);
  });
  it('takes what a run lays from the newest set-up: 1.131 x 9000 x 0.96 / 600 = 16.29 mm2', () => {
    expect(weldFigures(weld, steps).laidAreaMm2).toBeCloseTo(16.29, 2);
  });
  it('gives no figure it cannot know', () => {
    expect(weldFigures({ ...weld, jointType: 'butt' }, [])).toMatchObject({
      areaMm2: null,
      depositG: null,
      arcS: null,
      travelMmMin: null,
      laidAreaMm2: null,
    });
  });
});
