import { throatFromSettings } from '../process/bead.js';
import { assumedWireEfficiency } from '../process/wire.js';
import type { DrawnJoint } from './drawn-shapes.js';
import type { Groove } from './groove.js';

/** The sizes of a weld that make its cross-section; null where the weld list leaves one open. */
export interface JointWeld {
  /** `fillet`, `butt` and `lap` can be drawn from their sizes. */
  readonly jointType: string;
  readonly throatMm: number | null;
  readonly legMm: number | null;
  readonly grooveDepthMm: number | null;
  readonly thicknessAMm: number;
  readonly thicknessBMm: number;
}

/** How the edges of a groove are prepared; the weld list does not say it. */
export interface Preparation {
  kind: Groove['preparation'];
  gapMm: number;
  rootFaceMm: number;
  /** Included for a V, of one plate for the others. */
  angleDeg: number;
  rootRadiusMm: number;
}

/**
 * The joint that a row of the weld list describes; null where its sizes do not make one. A butt weld whose
 * preparation nobody has said is drawn with square edges.
 */
export function jointOfWeld(weld: JointWeld, preparation: Preparation | null): DrawnJoint | null {
  const { jointType, throatMm, legMm, thicknessAMm, thicknessBMm } = weld;
  if (jointType === 'fillet' || jointType === 'lap') {
    const fillet = throatMm !== null ? { throatMm } : legMm !== null ? { legMm } : null;
    if (fillet === null) return null;
    const form = jointType === 'fillet' ? 'tee' : 'lap';
    return { form, thicknessAMm, thicknessBMm, fillet };
  }
  if (jointType !== 'butt') return null;
  return { form: 'groove', groove: grooveOf(weld, preparation) };
}

function grooveOf(weld: JointWeld, preparation: Preparation | null): Groove {
  const thicknessMm = Math.min(weld.thicknessAMm, weld.thicknessBMm);
  const depth = weld.grooveDepthMm;
  const partial = depth !== null && depth < thicknessMm ? { penetrationMm: depth } : {};
  if (preparation === null) {
    return { preparation: 'square', thicknessMm, gapMm: 0, ...partial };
  }
  const { kind, gapMm, rootFaceMm, angleDeg, rootRadiusMm } = preparation;
  const plate = { thicknessMm, gapMm };
  switch (kind) {
    case 'square':
      return { preparation: kind, ...plate, ...partial };
    case 'singleV':
      return { preparation: kind, ...plate, rootFaceMm, includedAngleDeg: angleDeg, ...partial };
    case 'doubleV':
      return { preparation: kind, ...plate, rootFaceMm, includedAngleDeg: angleDeg };
    case 'singleBevel':
      return { preparation: kind, ...plate, rootFaceMm, bevelAngleDeg: angleDeg, ...partial };
    case 'doubleBevel':
      return { preparation: kind, ...plate, rootFaceMm, bevelAngleDeg: angleDeg };
    case 'singleU':
    case 'singleJ': {
      const rounded = { rootFaceMm, bevelAngleDeg: angleDeg, rootRadiusMm };
      return { preparation: kind, ...plate, ...rounded, ...partial };
    }
  }
}

interface Dialled {
  readonly wireDiameterMm: number | null;
  readonly wireSpeedMMin: number | null;
  readonly travelMmMin: number | null;
}

/** Area in mm2 that one run lays at the settings of a set-up; null where one of them is not on file. */
export function laidAreaOf(setUp: Dialled | null | undefined): number | null {
  const { wireDiameterMm, wireSpeedMMin, travelMmMin } = setUp ?? {};
  if (!wireDiameterMm || !wireSpeedMMin || !travelMmMin) return null;
  const settings = { wireDiameterMm, wireSpeedMMin, travelMmMin };
  const laid = throatFromSettings({ ...settings, efficiency: assumedWireEfficiency });
  return laid.ok ? laid.parts.areaMm2 : null;
}
