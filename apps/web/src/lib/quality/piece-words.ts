import type { FirstPiece, FirstPieceTask, Ncr } from '@tackboard/contract';
import { plainNumber } from '$lib/format/number.js';
import { m } from '$lib/paraglide/messages.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

type Defect = Ncr['defect'];

const defectWords: Record<Defect, () => string> = {
  crack: m.defect_crack,
  surfacePore: m.defect_surfacePore,
  openCraterPipe: m.defect_openCraterPipe,
  lackOfFusion: m.defect_lackOfFusion,
  incompleteRootPenetration: m.defect_incompleteRootPenetration,
  undercut: m.defect_undercut,
  excessWeldMetal: m.defect_excessWeldMetal,
  excessiveConvexity: m.defect_excessiveConvexity,
  excessivePenetration: m.defect_excessivePenetration,
  overlap: m.defect_overlap,
  linearMisalignment: m.defect_linearMisalignment,
  sagging: m.defect_sagging,
  burnThrough: m.defect_burnThrough,
  incompletelyFilledGroove: m.defect_incompletelyFilledGroove,
  excessiveAsymmetry: m.defect_excessiveAsymmetry,
  rootConcavity: m.defect_rootConcavity,
  poorRestart: m.defect_poorRestart,
  insufficientThroat: m.defect_insufficientThroat,
  excessiveThroat: m.defect_excessiveThroat,
  strayArc: m.defect_strayArc,
  spatter: m.defect_spatter,
  size: m.defect_size,
  distortion: m.defect_distortion,
  material: m.defect_material,
  other: m.defect_other,
};

export function defectWord(defect: Defect): string {
  return defectWords[defect]();
}

const resultMarks = {
  passed: { tone: 'good', word: m.piece_passed },
  failed: { tone: 'stop', word: m.piece_failed },
  waitingQa: { tone: 'tell', word: m.piece_waiting },
} as const satisfies Record<FirstPiece['result'], unknown>;

export function pieceMark(result: FirstPiece['result'] | null) {
  if (result === null) return { tone: 'plain' as const, word: m.piece_none() };
  const { tone, word } = resultMarks[result];
  return { tone, word: word() };
}

export function scopeWord(scope: FirstPieceTask['scope']): string {
  return scope === 'full' ? m.piece_full() : m.piece_short();
}

type Limits = FirstPieceTask['sizes'][number];

/** A gauge is read to a tenth of a millimetre or to a thousandth of an inch. */
const decimalsRead = { metric: 1, us: 3 } as const satisfies Record<
  typeof shopUnits.system,
  number
>;

/** `z 5.7 to 6.7 mm`, `a from 4 mm`; rounded to the inside, so that what is shown is never beyond what is allowed. */
export function limitWords({ measure, lowestMm, highestMm }: Limits): string {
  const letter = measure === 'leg' ? 'z' : 'a';
  const decimals = decimalsRead[shopUnits.system];
  const inside = (mm: number, round: (scaled: number) => number) => {
    const scale = 10 ** decimals;
    return plainNumber(round(shopUnits.value(mm, 'mm') * scale) / scale, decimals);
  };
  const unit = shopUnits.unit('mm');
  const min = inside(lowestMm, (scaled) => Math.ceil(scaled - 1e-9));
  return highestMm === null
    ? m.piece_size_from({ letter, min, unit })
    : m.piece_size_between({ letter, min, max: inside(highestMm, Math.floor), unit });
}
