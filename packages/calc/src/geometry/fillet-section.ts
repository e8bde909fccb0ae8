import { firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type ArgumentRefusal,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { capMm2, capWarnings } from './deposit.js';
import { filletSizeRefusal, legsOf, type FilletSize } from './fillet.js';
import { jointBounds } from './joint-bounds.js';

/** A fillet as it stands: its size is that of the flat triangle, its face may be convex or concave. */
export type FilletSection = FilletSize & {
  profile?: 'flat' | 'convex' | 'concave' | undefined;
  /** Height of the convexity or depth of the concavity, at the middle of the face. */
  bulgeMm?: number | undefined;
  /** Gap under the standing part. */
  gapMm?: number | undefined;
};

/** A fillet worked out to what its area and its outline both need. */
export interface FilletShape {
  /** On the standing part, from its lower edge. */
  legMm: number;
  /** On the lying part. */
  secondLegMm: number;
  gapMm: number;
  /** Outwards positive, inwards negative. */
  bulgeMm: number;
  faceMm: number;
}

const profiles = ['flat', 'convex', 'concave'] as const;

/** The fillet's shape, or why there is no such fillet. Shared by the area and the outline. */
export function filletShape(
  inputs: FilletSection,
): { ok: true; shape: FilletShape } | { ok: false; refusal: ArgumentRefusal } {
  const { profile = 'flat', bulgeMm = 0, gapMm = 0 } = inputs;
  const refusal =
    filletSizeRefusal(inputs) ??
    firstRefusal([
      ['bulgeMm', bulgeMm, jointBounds.openMm],
      ['gapMm', gapMm, jointBounds.openMm],
    ]);
  if (refusal) return refused(refusal);
  if (!profiles.includes(profile)) {
    const allowed = `one of ${profiles.join(', ')}`;
    return refused({ argument: 'profile', given: profile, allowed });
  }
  if (profile === 'flat' && bulgeMm > 0) {
    const allowed = '0 on a flat face: call the profile convex or concave';
    return refused({ argument: 'bulgeMm', given: bulgeMm, allowed });
  }
  const [legMm, secondLegMm] = legsOf(inputs);
  const riseMm = legMm + gapMm;
  const faceMm = Math.hypot(riseMm, secondLegMm);
  // A deeper parabola would leave the face at a steeper angle than the part's surface, and cut into the part.
  const deepestMm = (faceMm / 4) * Math.min(riseMm / secondLegMm, secondLegMm / riseMm);
  if (profile === 'concave' && bulgeMm > deepestMm) {
    const allowed = `not more than ${deepestMm} mm, or the face would cut into a part`;
    return refused({ argument: 'bulgeMm', given: bulgeMm, allowed });
  }
  const outwards = profile === 'concave' ? -bulgeMm : bulgeMm;
  return { ok: true, shape: { legMm, secondLegMm, gapMm, bulgeMm: outwards, faceMm } };
}

export interface FilletParts {
  flatMm2: number;
  gapMm2: number;
  /** Added by a convex face, taken by a concave one. */
  bulgeMm2: number;
  /** Of the flat triangle, less the depth of a concave face; convexity adds nothing to it. */
  throatMm: number;
  legMm: number;
  secondLegMm: number;
  faceWidthMm: number;
}

/**
 * Weld-metal area in mm2 of a fillet between parts at a right angle: z1 z2 / 2, plus z2 g / 2 for a gap under
 * the standing part, plus or minus 2/3 x face x bulge. The metal inside the gap is not in it (first estimate).
 * Refuses by argument. Source: plane geometry; handbook for the bulge.
 */
export function filletSection(
  inputs: FilletSection,
): CalculationInParts<FilletSection, FilletParts> {
  const found = filletShape(inputs);
  if (!found.ok) return found;
  const { legMm, secondLegMm, gapMm, bulgeMm, faceMm } = found.shape;
  const flatMm2 = (legMm * secondLegMm) / 2;
  const gapMm2 = (secondLegMm * gapMm) / 2;
  const bulgeMm2 = capMm2({ widthMm: faceMm, heightMm: bulgeMm });
  const warnings: Warning[] = capWarnings({ widthMm: faceMm, heightMm: Math.abs(bulgeMm) });
  if (gapMm > 0) warnings.push({ code: 'gapFirstEstimate', given: gapMm });
  return {
    ...calculated({
      value: flatMm2 + gapMm2 + bulgeMm2,
      unit: 'mm2',
      inputs,
      sources: bulgeMm === 0 ? ['geometry', 'weldVolume'] : ['geometry', 'weldVolume', 'capShape'],
      warnings,
    }),
    parts: {
      ...{ flatMm2, gapMm2, bulgeMm2, legMm, secondLegMm, faceWidthMm: faceMm },
      throatMm: (legMm * secondLegMm) / Math.hypot(legMm, secondLegMm) + Math.min(0, bulgeMm),
    },
  };
}
