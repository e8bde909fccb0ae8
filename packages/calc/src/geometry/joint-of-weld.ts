import { throatFromSettings } from '../process/bead.js';
import { assumedWireEfficiency } from '../process/wire.js';
import type { DrawnJoint } from './drawn-shapes.js';
import type { FilletSize } from './fillet.js';
import type { Groove } from './groove.js';
import type { Hole } from './hole.js';
import { preparedGroove, type GroovePreparation } from './prepared-groove.js';

/** The sizes of a weld that make its cross-section; null where the weld list leaves one open. */
export interface JointWeld {
  /** `fillet`, `butt`, `lap` and `corner` can be drawn from their sizes. */
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
  const { jointType, thicknessAMm, thicknessBMm } = weld;
  if (jointType === 'butt') return { form: 'groove', groove: grooveOf(weld, preparation) };
  const form = filletForms[jointType];
  const fillet = filletOfWeld(weld);
  if (form === undefined || fillet === null) return null;
  return { form, thicknessAMm, thicknessBMm, fillet };
}

const filletForms: Readonly<Record<string, 'tee' | 'lap' | 'corner'>> = {
  fillet: 'tee',
  lap: 'lap',
  corner: 'corner',
};

/**
 * The triangle that a row of the weld list asks for, by throat or leg; null where there is none. An outside corner
 * without a size is taken as open, the parts touching with their inner edges, and filled up to the outer ones.
 */
export function filletOfWeld(weld: JointWeld): FilletSize | null {
  const { jointType, throatMm, legMm, grooveDepthMm } = weld;
  if (filletForms[jointType] === undefined) return null;
  if (throatMm !== null) return { throatMm };
  if (legMm !== null) return { legMm };
  if (jointType !== 'corner' || grooveDepthMm !== null) return null;
  return { legMm: weld.thicknessAMm, secondLegMm: weld.thicknessBMm };
}

/**
 * The hole that a plug weld of the weld list fills, and how deep: part A has the hole, and is filled through unless
 * the row gives a depth. Null for other welds and while its width is not on file.
 */
export function holeOfWeld(
  weld: JointWeld & { readonly lengthMm: number; readonly holeWidthMm: number | null },
): { hole: Hole; depthMm: number } | null {
  const { jointType, holeWidthMm: widthMm, lengthMm } = weld;
  if (jointType !== 'plug' || widthMm === null) return null;
  return { hole: { widthMm, lengthMm }, depthMm: weld.grooveDepthMm ?? weld.thicknessAMm };
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
