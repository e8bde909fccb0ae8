import { describe, expect, it } from 'vitest';
import { arcLengthMm } from './arc-length.js';

const vee = {
  ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60 },
  ...{ rootRadiusMm: 0, capHeightMm: 0 },
};
const butt = {
  ...{ jointType: 'butt', throatMm: null, legMm: null, grooveDepthMm: null },
  ...{ thicknessAMm: 8, thicknessBMm: 10, lengthMm: 300, holeWidthMm: null, preparation: vee },
};
const dialled = { wireDiameterMm: 1.2, wireSpeedMMin: 9, travelMmMin: 600 };

describe('arcLengthMm', () => {
  // The V: 2 x 8 + 6² x tan 30° = 36.785 mm². One run: π/4 x 1.2² x 9000 x 0.96 / 600 = 16.286 mm².
  it('independent: a groove takes the runs that its area needs, mass in against mass wanted', () => {
    expect(arcLengthMm(butt, dialled)).toBeCloseTo((300 * 36.785) / 16.286, 1);
  });

  it('independent: half the travel lays twice as much in one run and takes half the length', () => {
    const slow = arcLengthMm(butt, { ...dialled, travelMmMin: 300 }) ?? 0;
    expect(slow).toBeCloseTo((arcLengthMm(butt, dialled) ?? 0) / 2, 9);
  });

  it('independent: a groove that one run fills takes one run', () => {
    expect(arcLengthMm(butt, { ...dialled, travelMmMin: 100 })).toBe(300);
  });

  it('independent: follows the thinner plate, as the drawing does', () => {
    const turned = { ...butt, thicknessAMm: 10, thicknessBMm: 8 };
    expect(arcLengthMm(turned, dialled)).toBe(arcLengthMm(butt, dialled));
  });

  it('independent: a round plug of 20 mm in 8 mm plate: 100 π mm² x 8 mm over 16.286 mm²', () => {
    const plug = { ...butt, jointType: 'plug', lengthMm: 20, holeWidthMm: 20, preparation: null };
    expect(arcLengthMm(plug, dialled)).toBeCloseTo((100 * Math.PI * 8) / 16.286, 1);
    expect(arcLengthMm({ ...plug, holeWidthMm: null }, dialled)).toBeNull();
    expect(arcLengthMm(plug, null)).toBeNull();
    expect(arcLengthMm({ ...plug, lengthMm: 10 }, dialled)).toBeNull();
  });

  it('is one run for a fillet, and for a butt weld of which nobody has said the preparation', () => {
    expect(arcLengthMm({ ...butt, preparation: null }, dialled)).toBe(300);
    expect(arcLengthMm({ ...butt, jointType: 'fillet' }, null)).toBe(300);
  });

  it('cannot be said of a groove while the settings are not on file, or when it cannot be cut', () => {
    expect(arcLengthMm(butt, null)).toBeNull();
    expect(arcLengthMm(butt, { ...dialled, wireSpeedMMin: null })).toBeNull();
    const impossible = { ...butt, preparation: { ...vee, rootFaceMm: 20 } };
    expect(arcLengthMm(impossible, dialled)).toBeNull();
  });
});
