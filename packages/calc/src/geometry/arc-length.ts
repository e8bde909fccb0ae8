import { grooveArea } from './groove.js';
import { holeArea } from './hole.js';
import { holeOfWeld, laidAreaOf, type Dialled, type JointWeld } from './joint-of-weld.js';
import { preparedGroove, type GroovePreparation } from './prepared-groove.js';

export interface RunWeld extends JointWeld {
  readonly lengthMm: number;
  /** Of a plug weld; null where it is not on file. */
  readonly holeWidthMm: number | null;
  /** Of a butt weld; null where nobody has said how its edges are prepared. */
  readonly preparation: GroovePreparation | null;
}

/**
 * Length in mm that the arc goes along one weld. A prepared groove takes as many runs as its area needs at what one run
 * lays at the settings, one at least; a part of a run counts as that part. A plug weld takes the run whose metal fills
 * its hole. Every other weld is one run. Null where the area of a groove or hole, or what one run lays, cannot be
 * said. Source: mass balance.
 */
export function arcLengthMm(weld: RunWeld, setUp: Dialled | null | undefined): number | null {
  const { jointType, preparation, lengthMm } = weld;
  if (jointType === 'plug') return fillLengthMm(weld, laidAreaOf(setUp));
  if (jointType !== 'butt' || preparation === null) return lengthMm;
  const thicknessMm = Math.min(weld.thicknessAMm, weld.thicknessBMm);
  const plate = { thicknessMm, depthMm: weld.grooveDepthMm, preparation };
  const area = grooveArea(preparedGroove(plate));
  const laidMm2 = laidAreaOf(setUp);
  if (!area.ok || laidMm2 === null) return null;
  return lengthMm * Math.max(1, area.value / laidMm2);
}

function fillLengthMm(weld: RunWeld, laidMm2: number | null): number | null {
  const plug = holeOfWeld(weld);
  const area = plug && holeArea(plug.hole);
  if (plug === null || !area?.ok || laidMm2 === null) return null;
  return (area.value * plug.depthMm) / laidMm2;
}
