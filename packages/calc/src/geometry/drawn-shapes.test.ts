import { expect, it } from 'vitest';
import type { DrawnJoint } from './drawn-shapes.js';
import { excessLimit } from './excess-weld-metal.js';
import { grooveArea, type Groove } from './groove.js';
import { jointDrawing } from './joint-drawing.js';
import { leastFilletLeg } from './size-rules.js';

type Drawn = Extract<ReturnType<typeof jointDrawing>, { ok: true }>['drawing'];
type Role = Drawn['shapes'][number]['role'];

function drawn(inputs: Parameters<typeof jointDrawing>[0]): Drawn {
  const drawing = jointDrawing(inputs);
  if (!drawing.ok) throw new Error(JSON.stringify(drawing.refusal));
  return drawing.drawing;
}

function shapesOf({ shapes }: Drawn, role: Role) {
  return shapes.filter((shape) => shape.role === role);
}

/** Left, top, right and bottom of each shape of a role, in mm; y grows downwards. */
function boxes(drawing: Drawn, role: Role) {
  return shapesOf(drawing, role).map(({ points }) => {
    const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  });
}

function close(rows: readonly (readonly number[])[]) {
  return rows.map((row) => row.map((value) => expect.closeTo(value, 6) as number));
}

const fillet = { legMm: 6, secondLegMm: 8, gapMm: 1 };
const tee: DrawnJoint = { form: 'tee', thicknessAMm: 8, thicknessBMm: 10, fillet };
const square: Groove = { preparation: 'square', thicknessMm: 12, gapMm: 4 };
const vee = { rootFaceMm: 0, gapMm: 2, includedAngleDeg: 60 };
const singleV: Groove = { preparation: 'singleV', thicknessMm: 12, ...vee };
const doubleV: Groove = { preparation: 'doubleV', thicknessMm: 20, ...vee };
const tan30 = 1 / Math.sqrt(3);

it('independent: the parts of a tee stand where legs, gap and thicknesses put them', () => {
  // Standing: 8 mm left of the root, from the gap up by leg and reach, 1 + 6 + 8 = 15. Lying: 8 + 8 mm either side.
  expect(boxes(drawn({ joint: tee }), 'part')).toEqual(
    close([
      [-8, -15, 0, -1],
      [-16, 0, 16, 10],
    ]),
  );
});

it('independent: the upper part of a lap ends at the root and reaches 8 + 2 x 8 mm away from it', () => {
  expect(boxes(drawn({ joint: { ...tee, form: 'lap' } }), 'part')).toEqual(
    close([
      [-24, -9, 0, -1],
      [-24, 0, 24, 10],
    ]),
  );
});

it('independent: the throat of z6 x z8 meets the face at (2.88, -3.84) above the gap, 4.8 mm away', () => {
  const [line] = shapesOf(drawn({ joint: tee }), 'throat');
  const [from, to] = line!.points;
  expect([from!.x, from!.y]).toEqual([0, -1]);
  expect(to!.x).toBeCloseTo(2.88, 9);
  expect(to!.y).toBeCloseTo(-4.84, 9);
});

it('independent: four times the area of z6 x z8 lays a throat of 9.6 and a leg of 12 mm', () => {
  const drawing = drawn({ joint: tee, laidAreaMm2: 96 });
  const [laid] = shapesOf(drawing, 'laid');
  expect(laid!.points[0]).toEqual({ x: 0, y: -13 });
  expect(laid!.points[1]!.x).toBe(16);
  expect(drawing.figures).toMatchObject({ laidThroatMm: 9.6, laidLegMm: 12 });
  const none = drawn({ joint: tee });
  expect(shapesOf(none, 'laid')).toEqual([]);
  expect(none.figures).toMatchObject({ laidThroatMm: null, laidLegMm: null });
});

it.each([
  ['a tee', tee],
  ['a groove', { form: 'groove', groove: singleV }],
] as const)('closes the parts and the metal of %s, and leaves lines open', (_what, joint) => {
  const { shapes } = drawn({ joint, laidAreaMm2: 20, runs: 2 });
  for (const { role, closed } of shapes)
    expect([role, closed]).toEqual([role, role === 'part' || role === 'metal']);
});

it('a lap takes a leg up to the thickness of its upper part and no more', () => {
  const lap = { ...tee, form: 'lap' as const, fillet: { legMm: 8 } };
  expect(jointDrawing({ joint: lap }).ok).toBe(true);
  expect(jointDrawing({ joint: { ...lap, fillet: { legMm: 8.1 } } }).ok).toBe(false);
  expect(jointDrawing({ joint: { ...tee, fillet: { legMm: 8.1 } } }).ok).toBe(true);
});

it('independent: the plates of a V reach from half the gap to half the face and one thickness more', () => {
  // Half the face 1 + 12 tan 30 = 7.928, or 1 + 10 tan 30 = 6.774 of a double V; 12 or 20 mm more.
  for (const [groove, reach, bottom] of [
    [singleV, 1 + 12 * tan30 + 12, 12],
    [doubleV, 1 + 10 * tan30 + 20, 20],
  ] as const)
    expect(
      boxes(drawn({ joint: { form: 'groove', groove } }), 'part').toSorted((a, b) => a[0]! - b[0]!),
    ).toEqual(
      close([
        [-reach, 0, -1, bottom],
        [1, 0, reach, bottom],
      ]),
    );
});

it('independent: a V has one prepared edge on each plate, a double V two', () => {
  const edges = (groove: Groove) =>
    boxes(drawn({ joint: { form: 'groove', groove } }), 'preparation');
  expect(edges(singleV)).toHaveLength(2);
  expect(edges(doubleV)).toHaveLength(4);
  const half = 1 + 10 * tan30;
  expect(edges(doubleV).map(([left, , right]) => Math.max(Math.abs(left!), right!))).toEqual(
    [half, half, half, half].map((value) => expect.closeTo(value, 6) as number),
  );
});

it('independent: three runs of a 4 x 12 mm gap end 4 and 8 mm above its root, half of it fills 6 mm', () => {
  const drawing = drawn({ joint: { form: 'groove', groove: square }, runs: 3, laidAreaMm2: 8 });
  expect(boxes(drawing, 'run')).toEqual(
    [
      [-2, 8, 2, 8],
      [-2, 4, 2, 4],
    ].map((row) => row.map((value) => expect.closeTo(value, 3) as number)),
  );
  // Three runs of 8 mm2 are 24 mm2 of the 48.
  expect(drawing.figures).toMatchObject({
    drawnAreaMm2: 48,
    drawnThroatMm: null,
    drawnLegMm: null,
  });
  expect(drawing.figures.laidFillMm).toBeCloseTo(6, 3);
  expect(boxes(drawing, 'laid')[0]![1]).toBeCloseTo(6, 3);
});

it('names the work behind the cap of a groove where there is one', () => {
  const sourcesOf = (groove: Groove) => {
    const area = grooveArea(groove);
    return area.ok ? area.sources : [];
  };
  expect(sourcesOf(square)).toEqual(['geometry', 'weldVolume']);
  expect(sourcesOf({ ...square, faceCap: { heightMm: 1 } })).toEqual([
    ...['geometry', 'weldVolume', 'capShape'],
  ]);
});

it('lists editions, kinds and quality levels where one is not known', () => {
  expect(
    leastFilletLeg({
      ...{ thinnerMm: 8, thickerMm: 8, lowHydrogen: true, calculatedPreheat: false },
      ...{ cyclicLoad: false, edition: '1990' as '2020' },
    }),
  ).toMatchObject({ refusal: { argument: 'edition', allowed: '2015 or 2020' } });
  const excess = { kind: 'buttExcess', qualityLevel: 'C', widthMm: 10 } as const;
  expect(excessLimit({ ...excess, kind: 'odd' as 'buttExcess' })).toMatchObject({
    refusal: { argument: 'kind', allowed: 'buttExcess or filletConvexity' },
  });
  expect(excessLimit({ ...excess, qualityLevel: 'E' as 'D' })).toMatchObject({
    refusal: { argument: 'qualityLevel', allowed: 'B, C or D' },
  });
});
