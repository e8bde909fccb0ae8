import type { FirstPiece, FirstPieceTask, InspectionPoint, Ncr } from '@tackboard/contract';
import { plainNumber } from '$lib/format/number.js';
import { m } from '$lib/paraglide/messages.js';

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

type Disposition = Ncr['decisions'][number]['disposition'];

const dispositionWords: Record<Disposition, () => string> = {
  rework: m.ncr_rework,
  useAsIs: m.ncr_use_as_is,
  scrap: m.ncr_scrap,
  concession: m.ncr_concession,
};

export function dispositionWord(disposition: Disposition): string {
  return dispositionWords[disposition]();
}

const stateMarks = {
  open: { tone: 'stop', word: m.ncr_state_open },
  decided: { tone: 'tell', word: m.ncr_state_decided },
  closed: { tone: 'good', word: m.ncr_state_closed },
} as const satisfies Record<Ncr['state'], unknown>;

export function ncrMark(state: Ncr['state']) {
  const { tone, word } = stateMarks[state];
  return { tone, word: word() };
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

/** `z 5.7 to 6.7 mm`, `a from 4 mm`; rounded up, so that what is shown is never under what is allowed. */
export function limitWords({ measure, lowestMm, highestMm }: Limits): string {
  const letter = measure === 'leg' ? 'z' : 'a';
  const min = plainNumber(Math.ceil(lowestMm * 10 - 1e-9) / 10);
  return highestMm === null
    ? m.piece_size_from({ letter, min })
    : m.piece_size_between({ letter, min, max: plainNumber(Math.floor(highestMm * 10) / 10) });
}

export function pointWord(kind: InspectionPoint['kind']): string {
  return kind === 'hold' ? m.point_hold() : m.point_witness();
}

const fieldWords: Readonly<Record<string, () => string>> = {
  quantity: m.ncr_quantity,
  wpsId: m.ncr_wps,
  concession: m.ncr_concession_number,
  reason: m.ncr_reason,
  note: m.ncr_note,
  accepted: m.ncr_accepted,
  lotId: m.contain_lot,
  personId: m.contain_person,
  programId: m.contain_program,
  cellId: m.contain_cell,
  from: m.contain_from,
  to: m.contain_to,
};

export function fieldLabel(field: string): string {
  const name = field.replace(/^(body|query)\./, '');
  return fieldWords[name]?.() ?? name;
}
