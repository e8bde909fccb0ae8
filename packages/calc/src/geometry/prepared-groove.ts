import type { Groove } from './groove.js';

/** How the edges of a butt weld are prepared, as a weld list states it; what the kind does not have is not looked at. */
export interface GroovePreparation {
  kind: Groove['preparation'];
  gapMm: number;
  rootFaceMm: number;
  /** Included for a V, of one plate from the square edge for the others. */
  angleDeg: number;
  rootRadiusMm: number;
  /** Weld metal above the plate, on each welded side; 0 where it is ground flush. */
  capHeightMm: number;
}

interface PreparedPlate {
  thicknessMm: number;
  /** How deep the weld goes where it does not go through; null or the thickness where it does. */
  depthMm: number | null;
  preparation: GroovePreparation;
}

const bothSides: ReadonlySet<Groove['preparation']> = new Set(['doubleV', 'doubleBevel']);

/** The groove that a row of a weld list describes, for its area and its drawing. Checks nothing. */
export function preparedGroove({ thicknessMm, depthMm, preparation }: PreparedPlate): Groove {
  const { kind, gapMm, rootFaceMm, angleDeg, rootRadiusMm, capHeightMm } = preparation;
  const twoSided = bothSides.has(kind);
  const cap = capHeightMm > 0 ? { heightMm: capHeightMm } : undefined;
  const partial = !twoSided && depthMm !== null && depthMm < thicknessMm;
  const plate = {
    ...{ thicknessMm, gapMm },
    ...(partial ? { penetrationMm: depthMm } : {}),
    ...(cap === undefined ? {} : { faceCap: cap }),
    ...(cap === undefined || !twoSided ? {} : { rootCap: cap }),
  };
  switch (kind) {
    case 'square':
      return { preparation: kind, ...plate };
    case 'singleV':
    case 'doubleV':
      return { preparation: kind, ...plate, rootFaceMm, includedAngleDeg: angleDeg };
    case 'singleBevel':
    case 'doubleBevel':
      return { preparation: kind, ...plate, rootFaceMm, bevelAngleDeg: angleDeg };
    case 'singleU':
    case 'singleJ':
      return { preparation: kind, ...plate, rootFaceMm, bevelAngleDeg: angleDeg, rootRadiusMm };
  }
}
