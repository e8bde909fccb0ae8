import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { throatFromSettings } from '../process/bead.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { grooveArea, type Groove } from './groove.js';
import type { DrawnJoint, JointDrawing } from './drawn-shapes.js';
import { jointDrawing } from './joint-drawing.js';
import { polygonArea, type Polygon } from './polygon.js';

function drawingOf(inputs: Parameters<typeof jointDrawing>[0]): JointDrawing {
  const result = jointDrawing(inputs);
  if (!result.ok) throw new Error(JSON.stringify(result.refusal));
  return result.drawing;
}
const shapesOf = (drawing: JointDrawing, role: string) =>
  drawing.shapes.filter((shape) => shape.role === role).map(({ points }) => points);
const lowest = (polygon: Polygon) => Math.max(...polygon.map(({ y }) => y));
const highest = (polygon: Polygon) => Math.min(...polygon.map(({ y }) => y));

const tee: DrawnJoint = {
  ...{ form: 'tee', thicknessAMm: 8, thicknessBMm: 10 },
  fillet: { throatMm: 5 },
};
const singleV: Groove = {
  ...{ preparation: 'singleV', thicknessMm: 12, gapMm: 2 },
  ...{ rootFaceMm: 0, includedAngleDeg: 60 },
};

describe('a fillet', () => {
  it('independent: the metal drawn for a5 encloses 25 mm2 and its throat line is 5 mm long', () => {
    const drawing = drawingOf({ joint: tee });
    expect(shapesOf(drawing, 'metal').map(polygonArea)[0]).toBeCloseTo(25, 9);
    const [from, to] = shapesOf(drawing, 'throat')[0] ?? [];
    expect(Math.hypot(to!.x - from!.x, to!.y - from!.y)).toBeCloseTo(5, 9);
    expect(drawing.figures.drawnLegMm).toBeCloseTo(7.0711, 4);
  });

  it('independent: lays the size that the mass balance says for the same settings', () => {
    const settings = { wireDiameterMm: 1.2, wireSpeedMMin: 9, efficiency: 0.96, travelMmMin: 520 };
    const laid = throatFromSettings(settings);
    const drawing = drawingOf({ joint: tee, laidAreaMm2: partsOf(laid).areaMm2 });
    expect(drawing.figures.laidThroatMm).toBeCloseTo(valueOf(laid), 9);
    expect(drawing.figures.laidLegMm).toBeCloseTo(partsOf(laid).legMm, 9);
    const [top, toe] = shapesOf(drawing, 'laid')[0] ?? [];
    expect((-top!.y * toe!.x) / 2).toBeCloseTo(partsOf(laid).areaMm2, 9);
  });

  it('draws one line fewer than runs, each run of the same area', () => {
    const lines = shapesOf(drawingOf({ joint: tee, runs: 3 }), 'run');
    const areas = lines.map(([top, toe]) => (-top!.y * toe!.x) / 2);
    expect(areas).toHaveLength(2);
    expect(areas[0]).toBeCloseTo(25 / 3, 9);
    expect(areas[1]).toBeCloseTo(50 / 3, 9);
  });

  it('lifts the standing part by the gap and sets a lap on the lying part', () => {
    const gapped = drawingOf({ joint: { ...tee, fillet: { legMm: 6, gapMm: 2 } } });
    expect(lowest(shapesOf(gapped, 'part')[0]!)).toBe(-2);
    const lap = drawingOf({ joint: { ...tee, form: 'lap' } });
    expect(highest(shapesOf(lap, 'part')[0]!)).toBe(-8);
  });
});

describe('a groove', () => {
  it('independent: draws metal of the area that the closed form gives', () => {
    const groove = { ...singleV, faceCap: { heightMm: 2, widerByMm: 2 } };
    const areas = shapesOf(drawingOf({ joint: { form: 'groove', groove } }), 'metal').map(
      polygonArea,
    );
    const drawn = areas.reduce((sum, area) => sum + area, 0);
    // 64 straight pieces stand for the parabola of the cap: 1 / 64^2 of it is missing.
    expect(Math.abs(drawn / valueOf(grooveArea(groove)) - 1)).toBeLessThan(1e-4);
  });

  it('independent: half the metal fills a V without gap to 1 / sqrt 2 of its depth', () => {
    const groove = { ...singleV, gapMm: 0 };
    const half = valueOf(grooveArea(groove)) / 2;
    const drawing = drawingOf({ joint: { form: 'groove', groove }, laidAreaMm2: half });
    expect(drawing.figures.laidFillMm).toBeCloseTo(12 / Math.SQRT2, 6);
  });

  it('fills a double V from the middle on both sides', () => {
    const groove: Groove = { ...singleV, preparation: 'doubleV', thicknessMm: 20 };
    const half = valueOf(grooveArea(groove)) / 2;
    const drawing = drawingOf({ joint: { form: 'groove', groove }, laidAreaMm2: half });
    const [up, down] = shapesOf(drawing, 'laid');
    expect(up![0]!.y + down![0]!.y).toBeCloseTo(20, 9);
  });

  it('independent: overfilled by 20 mm2, a face 15.856 mm wide carries a cap of 1.892 mm', () => {
    // 2 + 2 x 12 x tan 30 = 15.856; 20 x 3 / (2 x 15.856) = 1.8920.
    const laidAreaMm2 = valueOf(grooveArea(singleV)) + 20;
    const drawing = drawingOf({ joint: { form: 'groove', groove: singleV }, laidAreaMm2 });
    expect(drawing.figures.laidFillMm).toBeNull();
    expect(highest(shapesOf(drawing, 'laid')[0]!)).toBeCloseTo(-1.892, 3);
  });

  it('draws every preparation inside the view, with finite numbers', () => {
    const groove = fc.record({
      preparation: fc.constantFrom('singleV' as const, 'doubleV' as const),
      thicknessMm: fc.double({ min: 3, max: 60, noNaN: true }),
      gapMm: fc.double({ min: 0, max: 6, noNaN: true }),
      rootFaceMm: fc.double({ min: 0, max: 3, noNaN: true }),
      includedAngleDeg: fc.double({ min: 10, max: 120, noNaN: true }),
    });
    fc.assert(
      fc.property(groove, fc.double({ min: 1, max: 900, noNaN: true }), (one, laidAreaMm2) => {
        const joint = { form: 'groove' as const, groove: one };
        const { shapes, view } = drawingOf({ joint, laidAreaMm2, runs: 4 });
        for (const { x, y } of shapes.flatMap(({ points }) => points)) {
          expect(x >= view.x && x <= view.x + view.widthMm).toBe(true);
          expect(y >= view.y && y <= view.y + view.heightMm).toBe(true);
        }
      }),
    );
  });
});

it('refuses what cannot be welded, by the name of the argument', () => {
  const joint = { form: 'groove' as const, groove: { ...singleV, includedAngleDeg: 180 } };
  expect(jointDrawing({ joint })).toMatchObject({
    ok: false,
    refusal: { argument: 'includedAngleDeg', given: 180, allowed: 'a number from 1 to 170 deg' },
  });
  expect(jointDrawing({ joint: { ...tee, thicknessAMm: 0 } })).toMatchObject({
    refusal: { argument: 'thicknessAMm' },
  });
  expect(jointDrawing({ joint: { ...tee, form: 'lap', thicknessAMm: 5 } })).toMatchObject({
    refusal: { argument: 'legMm', allowed: 'not more than the edge it stands on, 5 mm' },
  });
  expect(jointDrawing({ joint: tee, runs: 0 })).toMatchObject({ refusal: { argument: 'runs' } });
});
