import {
  mechanisations,
  type BodyOf,
  type procedures,
  type qualification,
  type Wpqr,
} from '@tackboard/contract';
import { pieceMore, statedMore } from './piece-more.js';
import { rangesDraft, rangesOf } from './ranges-draft.js';

type WpqrBody = BodyOf<typeof procedures.addWpqr>;
type TestResult = WpqrBody['testResults'][number];

/** What stands in the fields of a record; null for an empty number or day. */
export function wpqrDraft(record?: Wpqr) {
  return {
    number: record?.number ?? '',
    code: record?.code ?? '',
    edition: record?.edition ?? '',
    level: record?.level ?? '',
    process: record?.process ?? '',
    mechanisation: record?.mechanisation ?? 'partlyMechanised',
    testedOn: record?.testedOn ?? null,
    examiner: record?.examiner ?? '',
    filler: record?.filler ?? '',
    gas: record?.gas ?? '',
    transfer: record?.transfer ?? '',
    testPiece: pieceDraft(record?.testPiece),
    testedValues: valuesDraft(record?.testedValues),
    more: pieceMore(record?.testPiece, record?.testedValues),
    testResults: (record?.testResults ?? []).map((result) => ({ ...result })),
    ranges: rangesDraft(record?.ranges),
  };
}

export type WpqrDraft = ReturnType<typeof wpqrDraft>;

function pieceDraft(piece?: Wpqr['testPiece']) {
  return {
    jointType: piece?.jointType ?? 'fillet',
    thicknessMm: piece?.thicknessMm ?? null,
    diameterMm: piece?.diameterMm ?? null,
    material: piece?.material ?? '',
    materialGroup: piece?.materialGroup ?? '',
    yieldMPa: piece?.yieldMPa ?? null,
    throatMm: piece?.throatMm ?? null,
    position: piece?.position ?? 'PB',
    runs: piece?.runs ?? ('single' as const),
    sides: piece?.sides ?? ('one' as const),
    backing: piece?.backing ?? '',
  };
}

function valuesDraft(values?: Wpqr['testedValues']): Wpqr['testedValues'] {
  return {
    currentA: values?.currentA ?? null,
    voltageV: values?.voltageV ?? null,
    wireSpeedMMin: values?.wireSpeedMMin ?? null,
    travelMmMin: values?.travelMmMin ?? null,
    heatInputKjMm: values?.heatInputKjMm ?? null,
    preheatC: values?.preheatC ?? null,
    interpassC: values?.interpassC ?? null,
  };
}

export function emptyResult(): TestResult {
  return { test: '', outcome: 'passed', note: '' };
}

/** What is sent for a record; null while the day of the test or the thickness of the piece is missing. */
export function wpqrBody(draft: WpqrDraft): WpqrBody | null {
  const { testedOn, testPiece, level, transfer } = draft;
  const mechanisation = mechanisations.find((one) => one === draft.mechanisation);
  const { thicknessMm } = testPiece;
  if (testedOn === null || thicknessMm === null || mechanisation === undefined) return null;
  const more = statedMore(draft.more);
  return {
    ...{ number: draft.number, code: draft.code, edition: draft.edition, process: draft.process },
    ...{ mechanisation, testedOn, examiner: draft.examiner },
    ...{ filler: draft.filler, gas: draft.gas },
    level: level.trim() === '' ? null : level,
    transfer: transfer.trim() === '' ? null : transfer,
    testPiece: { ...testPiece, thicknessMm, ...more.piece },
    testedValues: { ...draft.testedValues, ...more.values },
    testResults: draft.testResults.map((result) => ({ ...result })),
    ranges: rangesOf(draft.ranges),
  };
}

type WpqrTyped = BodyOf<typeof qualification.suggestWpqr>;

/** What is typed so far, for the range rules to be asked; nothing is missing that stands in a field. */
export function wpqrTyped(draft: WpqrDraft): WpqrTyped {
  const more = statedMore(draft.more);
  const { code, edition, level, process, filler, gas, transfer } = draft;
  return {
    ...{ code, edition, level, process, filler, gas, transfer },
    mechanisation: mechanisations.find((one) => one === draft.mechanisation) ?? null,
    testPiece: { ...draft.testPiece, ...more.piece },
    testedValues: { ...draft.testedValues, ...more.values },
    ranges: rangesOf(draft.ranges),
  };
}
