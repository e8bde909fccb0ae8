import {
  arcLengthMm,
  arcTime,
  depositedMass,
  filletArea,
  filletOfWeld,
  grooveArea,
  holeArea,
  holeOfWeld,
  laidAreaOf,
  preparedGroove,
} from '@tackboard/calc';
import type { SetUp } from '@tackboard/contract';
import {
  explainedArcTime,
  explainedFilletArea,
  explainedHoleArea,
  explainedMass,
} from '../method/explained.js';
import type { WorkedFigure } from '../method/worked-figure.js';
import type { WeldBody } from './weld-draft.js';

interface StepWithSetUps {
  readonly number: number;
  readonly setUps: readonly Pick<
    SetUp,
    'cellCode' | 'travelMmMin' | 'wireDiameterMm' | 'wireSpeedMMin' | 'frozenAt'
  >[];
}

export interface WeldFigures {
  readonly number: number;
  /** Of one weld, across it; of a plug weld that of its hole. Null where the row does not say enough. */
  readonly areaMm2: number | null;
  /** Of all welds of the row. */
  readonly depositG: number | null;
  readonly arcS: number | null;
  readonly travelMmMin: number | null;
  readonly cellCode: string | null;
  /** What one run lays at the newest set-up. */
  readonly laidAreaMm2: number | null;
  /** How each figure that there is was worked out. */
  readonly explained: readonly WorkedFigure[];
}

/** What a row of the weld list means for one part: area, deposit, and arc time at the travel of the newest set-up. */
export function weldFigures(weld: WeldBody, steps: readonly StepWithSetUps[]): WeldFigures {
  const setUp = newestSetUp(steps, weld.stepNumber);
  const fillet = filletOfWeld(weld);
  const area = fillet === null ? null : filletArea(fillet);
  const plug = holeOfWeld(weld);
  const hole = plug === null ? null : holeArea(plug.hole);
  const drawn = area ?? hole ?? grooveAreaOf(weld);
  // The metal of a plug stands as high as its hole is deep; that of other welds runs along their length.
  const reachMm = (plug?.depthMm ?? weld.lengthMm) * weld.count;
  const deposit = drawn?.ok ? depositedMass({ areaMm2: drawn.value, lengthMm: reachMm }) : null;
  const travelMmMin = setUp?.travelMmMin ?? null;
  const oneMm = arcLengthMm(weld, setUp);
  const arc =
    travelMmMin === null || oneMm === null
      ? null
      : arcTime({ lengthMm: oneMm * weld.count, travelMmMin });
  return {
    number: weld.number,
    areaMm2: drawn?.ok ? drawn.value : null,
    depositG: deposit?.ok ? deposit.value * 1000 : null,
    arcS: arc?.ok ? arc.value : null,
    travelMmMin,
    cellCode: setUp?.cellCode ?? null,
    laidAreaMm2: laidAreaOf(setUp),
    explained: [
      area?.ok ? [explainedFilletArea(area)] : [],
      hole?.ok ? [explainedHoleArea(hole)] : [],
      deposit?.ok ? [explainedMass(deposit)] : [],
      arc?.ok ? [explainedArcTime(arc)] : [],
    ].flat(),
  };
}

function grooveAreaOf({ jointType, preparation, thicknessAMm, thicknessBMm, ...weld }: WeldBody) {
  if (jointType !== 'butt' || preparation === null) return null;
  const thicknessMm = Math.min(thicknessAMm, thicknessBMm);
  return grooveArea(preparedGroove({ thicknessMm, depthMm: weld.grooveDepthMm, preparation }));
}

function newestSetUp(steps: readonly StepWithSetUps[], stepNumber: number) {
  return steps
    .find((step) => step.number === stepNumber)
    ?.setUps.filter((setUp) => setUp.travelMmMin !== null)
    .toSorted((a, b) => b.frozenAt.localeCompare(a.frozenAt))[0];
}
