import { bounds, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type ArgumentRefusal,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { capMm2, capWarnings } from './deposit.js';
import { jointBounds, upTo } from './joint-bounds.js';

/** Weld metal above a surface of the plate. */
export interface GrooveCap {
  heightMm: number;
  /** How much wider than the groove's face, both sides together. */
  widerByMm?: number | undefined;
}

interface Plate {
  thicknessMm: number;
  /** Root gap. */
  gapMm: number;
  /** How deep the gap is filled from each welded side; the whole joint where it is left out. */
  penetrationMm?: number | undefined;
  faceCap?: GrooveCap | undefined;
  rootCap?: GrooveCap | undefined;
}
type Faced = Plate & { rootFaceMm: number };

/** V: the included angle of both plates. Bevel, U and J: the angle of one prepared plate from the square edge. */
export type Groove =
  | (Plate & { preparation: 'square' })
  | (Faced & { preparation: 'singleV' | 'doubleV'; includedAngleDeg: number })
  | (Faced & { preparation: 'singleBevel' | 'doubleBevel'; bevelAngleDeg: number })
  | (Faced & { preparation: 'singleU' | 'singleJ'; bevelAngleDeg: number; rootRadiusMm: number });

/** A groove worked out to what its areas and its outline both need. */
export interface GrooveShape {
  thicknessMm: number;
  gapMm: number;
  /** Sides that are welded: 1, or 2 for the double preparations. */
  sides: 1 | 2;
  /** Plates that are prepared: both for V and U, one for bevel and J, none for square. */
  preparedPlates: 0 | 1 | 2;
  /** Of one side. */
  preparationDepthMm: number;
  penetrationMm: number;
  radiusMm: number;
  /** Of one prepared plate from the square edge. */
  angleRad: number;
}

const radPerDeg = Math.PI / 180;

const kinds = {
  square: { sides: 1, plates: 0 },
  singleV: { sides: 1, plates: 2 },
  doubleV: { sides: 2, plates: 2 },
  singleBevel: { sides: 1, plates: 1 },
  doubleBevel: { sides: 2, plates: 1 },
  singleU: { sides: 1, plates: 2 },
  singleJ: { sides: 1, plates: 1 },
} as const satisfies Record<Groove['preparation'], { sides: 1 | 2; plates: 0 | 1 | 2 }>;

function angleRefusal(groove: Groove): ArgumentRefusal | null {
  switch (groove.preparation) {
    case 'square':
      return null;
    case 'singleV':
    case 'doubleV':
      return firstRefusal([
        ['includedAngleDeg', groove.includedAngleDeg, jointBounds.includedAngleDeg],
      ]);
    case 'singleBevel':
    case 'doubleBevel':
      return firstRefusal([['bevelAngleDeg', groove.bevelAngleDeg, jointBounds.bevelAngleDeg]]);
    case 'singleU':
    case 'singleJ':
      return firstRefusal([
        ['bevelAngleDeg', groove.bevelAngleDeg, jointBounds.sideAngleDeg],
        ['rootRadiusMm', groove.rootRadiusMm, jointBounds.rootRadiusMm],
      ]);
  }
}

function capRefusal(groove: Groove): ArgumentRefusal | null {
  for (const name of ['faceCap', 'rootCap'] as const) {
    const cap = groove[name];
    if (cap === undefined) continue;
    const refusal = firstRefusal([
      [`${name}.heightMm`, cap?.heightMm, jointBounds.openMm],
      [`${name}.widerByMm`, cap?.widerByMm ?? 0, jointBounds.openMm],
    ]);
    if (refusal) return refusal;
  }
  return null;
}

function argumentRefusal(groove: Groove): ArgumentRefusal | null {
  if (!Object.hasOwn(kinds, groove.preparation)) {
    const allowed = `one of ${Object.keys(kinds).join(', ')}`;
    return { argument: 'preparation', given: groove.preparation, allowed };
  }
  return (
    firstRefusal([
      ['thicknessMm', groove.thicknessMm, bounds.sectionMm],
      ['gapMm', groove.gapMm, jointBounds.openMm],
    ]) ??
    firstRefusal([['rootFaceMm', rootFaceOf(groove), upTo(groove.thicknessMm)]]) ??
    angleRefusal(groove) ??
    capRefusal(groove)
  );
}

function rootFaceOf(groove: Groove): number {
  return groove.preparation === 'square' ? groove.thicknessMm : groove.rootFaceMm;
}

function angleOf(groove: Groove): number {
  if ('includedAngleDeg' in groove) return (groove.includedAngleDeg / 2) * radPerDeg;
  return 'bevelAngleDeg' in groove ? groove.bevelAngleDeg * radPerDeg : 0;
}

function penetrationRefusal(groove: Groove, depthMm: number, wholeMm: number) {
  const { penetrationMm, rootCap } = groove;
  if (penetrationMm === undefined) return null;
  const refusal = firstRefusal([
    ['penetrationMm', penetrationMm, { min: Math.max(depthMm, 0.1), max: wholeMm, unit: 'mm' }],
  ]);
  if (refusal) return refusal;
  const open = kinds[groove.preparation].sides === 1 && penetrationMm < wholeMm;
  const allowed = 'left out where the weld does not reach the far side';
  return open && rootCap ? { argument: 'rootCap', given: rootCap, allowed } : null;
}

/** The groove's shape, or why there is no such groove. Shared by the areas and the outline. */
export function grooveShape(
  groove: Groove,
): { ok: true; shape: GrooveShape } | { ok: false; refusal: ArgumentRefusal } {
  const refusal = argumentRefusal(groove);
  if (refusal) return refused(refusal);
  const { sides, plates: preparedPlates } = kinds[groove.preparation];
  const { thicknessMm, gapMm } = groove;
  const preparationDepthMm = (thicknessMm - rootFaceOf(groove)) / sides;
  const wholeMm = thicknessMm / sides;
  const radiusMm = 'rootRadiusMm' in groove ? groove.rootRadiusMm : 0;
  const angleRad = angleOf(groove);
  const straightMm = preparationDepthMm - radiusMm * (1 - Math.sin(angleRad));
  if (radiusMm > 0 && straightMm < 0) {
    const largest = preparationDepthMm / (1 - Math.sin(angleRad));
    const allowed = `not more than ${largest} mm, the depth of the preparation leaves no more`;
    return refused({ argument: 'rootRadiusMm', given: radiusMm, allowed });
  }
  const shallow = penetrationRefusal(groove, preparationDepthMm, wholeMm);
  if (shallow) return refused(shallow);
  const penetrationMm = groove.penetrationMm ?? wholeMm;
  return {
    ok: true,
    shape: {
      ...{ thicknessMm, gapMm, sides, preparedPlates },
      ...{ preparationDepthMm, penetrationMm, radiusMm, angleRad },
    },
  };
}

/** Height of the straight flank above the root radius, in mm. */
export function flankMm({ preparationDepthMm, radiusMm, angleRad }: GrooveShape): number {
  return preparationDepthMm - radiusMm * (1 - Math.sin(angleRad));
}

/** Width in mm by which one prepared plate opens the groove at its face. */
function openingMm(shape: GrooveShape): number {
  return shape.radiusMm * Math.cos(shape.angleRad) + flankMm(shape) * Math.tan(shape.angleRad);
}

/** Area in mm2 cut from one prepared plate on one side: the rounded root and the straight flank above it. */
function cutMm2(shape: GrooveShape): number {
  const { radiusMm: r, angleRad: b } = shape;
  const flank = flankMm(shape);
  const rounded = (r ** 2 / 2) * (Math.PI / 2 - b - Math.sin(b) * Math.cos(b));
  return rounded + flank * r * Math.cos(b) + (flank ** 2 * Math.tan(b)) / 2;
}

export interface GrooveParts {
  gapMm2: number;
  preparationMm2: number;
  capsMm2: number;
  faceWidthMm: number;
  rootWidthMm: number;
}

/** Width in mm of the groove at the face and at the far side. */
export function grooveWidths(shape: GrooveShape): { faceMm: number; rootMm: number } {
  const faceMm = shape.gapMm + shape.preparedPlates * openingMm(shape);
  return { faceMm, rootMm: shape.sides === 2 ? faceMm : shape.gapMm };
}

/**
 * Weld-metal area in mm2 of a groove: root gap x depth, plus what the preparation took away, plus caps of 2/3
 * width x height. U and J: rounded root, tangent flank. Validity: plane plates of one thickness, root gap
 * parallel; shrinkage is not in it, so tables of metal after shrinkage lie up to 13 % lower. Refuses a
 * joint that cannot be cut, by argument. Source: plane geometry; handbook for the cap.
 */
export function grooveArea(groove: Groove): CalculationInParts<Groove, GrooveParts> {
  const found = grooveShape(groove);
  if (!found.ok) return found;
  const { shape } = found;
  const { faceMm, rootMm } = grooveWidths(shape);
  const gapMm2 = shape.gapMm * shape.penetrationMm * shape.sides;
  const preparationMm2 = shape.preparedPlates * shape.sides * cutMm2(shape);
  const caps = [
    { cap: groove.faceCap, widthMm: faceMm },
    { cap: groove.rootCap, widthMm: rootMm },
  ].map(({ cap, widthMm }) => ({
    widthMm: widthMm + (cap?.widerByMm ?? 0),
    heightMm: cap?.heightMm ?? 0,
  }));
  const capsMm2 = caps.reduce((sum, cap) => sum + capMm2(cap), 0);
  const warnings: Warning[] = caps.flatMap(capWarnings);
  return {
    ...calculated({
      value: gapMm2 + preparationMm2 + capsMm2,
      unit: 'mm2',
      inputs: groove,
      sources: capsMm2 > 0 ? ['geometry', 'weldVolume', 'capShape'] : ['geometry', 'weldVolume'],
      warnings,
    }),
    parts: { gapMm2, preparationMm2, capsMm2, faceWidthMm: faceMm, rootWidthMm: rootMm },
  };
}
