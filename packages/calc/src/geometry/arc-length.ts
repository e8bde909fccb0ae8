import { grooveArea } from './groove.js';
import { laidAreaOf, type Dialled, type JointWeld } from './joint-of-weld.js';
import { preparedGroove, type GroovePreparation } from './prepared-groove.js';

export interface RunWeld extends JointWeld {
  readonly lengthMm: number;
  /** Of a butt weld; null where nobody has said how its edges are prepared. */
  readonly preparation: GroovePreparation | null;
}

/**
 * Length in mm that the arc goes along one weld. A prepared groove takes as many runs as its area needs at what one run
 * lays at the settings, one at least; a part of a run counts as that part. Every other weld is one run. Null where a
 * groove is prepared and its area or what one run lays cannot be said. Source: mass balance.
 */
export function arcLengthMm(weld: RunWeld, setUp: Dialled | null | undefined): number | null {
  const { jointType, preparation, lengthMm } = weld;
  if (jointType !== 'butt' || preparation === null) return lengthMm;
  const thicknessMm = Math.min(weld.thicknessAMm, weld.thicknessBMm);
  const plate = { thicknessMm, depthMm: weld.grooveDepthMm, preparation };
  const area = grooveArea(preparedGroove(plate));
  const laidMm2 = laidAreaOf(setUp);
  if (!area.ok || laidMm2 === null) return null;
  return lengthMm * Math.max(1, area.value / laidMm2);
}
