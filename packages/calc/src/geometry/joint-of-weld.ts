import { throatFromSettings } from '../process/bead.js';
import { assumedWireEfficiency } from '../process/wire.js';
import type { DrawnJoint } from './drawn-shapes.js';
import type { Groove } from './groove.js';
import { preparedGroove, type GroovePreparation } from './prepared-groove.js';

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

/**
 * The joint that a row of the weld list describes; null where its sizes do not make one. A butt weld whose
 * preparation nobody has said is drawn with square edges.
 */
export function jointOfWeld(
  weld: JointWeld,
  preparation: GroovePreparation | null,
): DrawnJoint | null {
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

function grooveOf(weld: JointWeld, preparation: GroovePreparation | null): Groove {
  const thicknessMm = Math.min(weld.thicknessAMm, weld.thicknessBMm);
  const depthMm = weld.grooveDepthMm;
  return preparedGroove({ thicknessMm, depthMm, preparation: preparation ?? closedSquare });
}

/** What is drawn of a butt weld while nobody has said how it is prepared: two plates against each other. */
const closedSquare: GroovePreparation = {
  kind: 'square',
  ...{ gapMm: 0, rootFaceMm: 0, angleDeg: 0, rootRadiusMm: 0, capHeightMm: 0 },
};

export interface Dialled {
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
