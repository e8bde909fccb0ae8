import {
  assumedWireEfficiency,
  preparedGroove,
  throatFromSettings,
  type DrawnJoint,
  type Groove,
  type GroovePreparation,
} from '@tackboard/calc';
import type { Preparation, SetUp, Weld } from '@tackboard/contract';

export type JointWeld = Pick<
  Weld,
  'jointType' | 'throatMm' | 'legMm' | 'grooveDepthMm' | 'thicknessAMm' | 'thicknessBMm'
>;

/** The joint that a row of the weld list describes; null where its sizes do not make one. */
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
  const depthMm = weld.grooveDepthMm;
  return preparedGroove({ thicknessMm, depthMm, preparation: preparation ?? closedSquare });
}

/** What is drawn of a butt weld while nobody has said how it is prepared: two plates against each other. */
const closedSquare: GroovePreparation = {
  kind: 'square',
  ...{ gapMm: 0, rootFaceMm: 0, angleDeg: 0, rootRadiusMm: 0, capHeightMm: 0 },
};

type Dialled = Pick<SetUp, 'wireDiameterMm' | 'wireSpeedMMin' | 'travelMmMin'>;

/** Area in mm2 that one run lays at the settings of a set-up; null where one of them is not on file. */
export function laidAreaOf(setUp: Dialled | null | undefined): number | null {
  const { wireDiameterMm, wireSpeedMMin, travelMmMin } = setUp ?? {};
  if (!wireDiameterMm || !wireSpeedMMin || !travelMmMin) return null;
  const settings = { wireDiameterMm, wireSpeedMMin, travelMmMin };
  const laid = throatFromSettings({ ...settings, efficiency: assumedWireEfficiency });
  return laid.ok ? laid.parts.areaMm2 : null;
}
