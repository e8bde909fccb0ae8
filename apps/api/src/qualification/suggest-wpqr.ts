import { procedureTest, suggestProcedureRanges, type ProcedureTest } from '@tackboard/calc';
import type { BodyOf, qualification, Suggestions } from '@tackboard/contract';
import { known, suggestionViews, transferLetter, typedFields } from './rule-words.js';

type WpqrTyped = BodyOf<(typeof qualification)['suggestWpqr']>;

/** What the range rules give for a procedure test, and how the ranges typed from the record lie to it. */
export function wpqrSuggestions(typed: WpqrTyped): Suggestions {
  const suggested = suggestProcedureRanges(testOf(typed));
  return {
    code: suggested.code,
    edition: suggested.edition,
    cannotSay: suggested.cannotSay?.words ?? null,
    ranges: suggestionViews(suggested, fieldsOf(typed)),
  };
}

/** A record as the rules read it; what it does not say stays unsaid. */
export function testOf(typed: WpqrTyped): ProcedureTest {
  const { testPiece: piece, testedValues: values } = typed;
  return procedureTest({
    code: typed.code,
    edition: known(typed.edition),
    level: known(typed.level),
    process: known(typed.process),
    mechanisation: typed.mechanisation,
    transfer: transferLetter(typed.transfer),
    filler: known(typed.filler),
    gas: known(typed.gas),
    ...pieceOf(piece),
    fillerGroup: known(piece.fillerGroup),
    currentType: known(piece.currentType),
    co2Pct: piece.co2Pct ?? null,
    currentA: values.currentA ?? null,
    voltageV: values.voltageV ?? null,
    wireSpeedMMin: values.wireSpeedMMin ?? null,
    travelMmMin: values.travelMmMin ?? null,
    heatInputKjMm: values.heatInputKjMm ?? null,
    preheatC: values.preheatC ?? null,
    interpassC: values.interpassC ?? null,
    wireDiameterMm: values.wireDiameterMm ?? null,
    gasFlowLMin: values.gasFlowLMin ?? null,
  });
}

function pieceOf(piece: WpqrTyped['testPiece']) {
  return {
    jointType: known(piece.jointType),
    product: piece.product ?? null,
    thicknessMm: piece.thicknessMm ?? null,
    diameterMm: piece.diameterMm ?? null,
    throatMm: piece.throatMm ?? null,
    depositedMm: piece.depositedMm ?? null,
    runs: piece.runs ?? null,
    sides: piece.sides ?? null,
    backing: backingOf(piece),
    gouged: piece.gouged ?? null,
    squareGroove: piece.squareGroove ?? null,
    maxPassMm: piece.maxPassMm ?? null,
    branchAngleDeg: piece.branchAngleDeg ?? null,
    position: known(piece.position),
    ...partsOf(piece),
    impactRequired: piece.impactRequired ?? null,
    impactTested: piece.impactTested ?? null,
    hardnessRequired: piece.hardnessRequired ?? null,
  };
}

/** A backing that is named was there; an empty field says nothing. */
function backingOf({ backed, backing }: WpqrTyped['testPiece']): boolean | null {
  return backed ?? (known(backing) === null ? null : true);
}

/** A second part that is not named is of the same material. */
function partsOf(piece: WpqrTyped['testPiece']) {
  const group = known(piece.materialGroup);
  const yieldMPa = piece.yieldMPa ?? null;
  const yieldB = piece.yieldBMPa ?? (known(piece.materialGroupB) === null ? yieldMPa : null);
  return {
    materialGroups: group === null ? null : [group, known(piece.materialGroupB) ?? group],
    yieldsMPa: yieldMPa === null || yieldB === null ? null : [yieldMPa, yieldB],
  };
}

function fieldsOf({ ranges }: WpqrTyped) {
  const { preheatMinC = null, interpassMaxC = null } = ranges;
  return typedFields([
    ['process', 'process', known(ranges.process) === null ? null : [ranges.process ?? '']],
    ['mechanisation', 'mechanisations', ranges.mechanisations ?? null],
    ['materialGroup', 'materialGroups', ranges.materialGroups ?? null],
    ['jointType', 'jointTypes', ranges.jointTypes ?? null],
    ['position', 'positions', ranges.positions ?? null],
    ['filler', 'fillers', ranges.fillers ?? null],
    ['gas', 'gases', ranges.gases ?? null],
    ['thickness', 'thicknessMm', ranges.thicknessMm ?? null],
    ['throat', 'throatMm', ranges.throatMm ?? null],
    ['wireDiameter', 'wireDiameterMm', ranges.wireDiameterMm ?? null],
    ['current', 'currentA', ranges.currentA ?? null],
    ['voltage', 'voltageV', ranges.voltageV ?? null],
    ['wireSpeed', 'wireSpeedMMin', ranges.wireSpeedMMin ?? null],
    ['travel', 'travelMmMin', ranges.travelMmMin ?? null],
    ['heatInput', 'heatInputKjMm', ranges.heatInputKjMm ?? null],
    ['preheat', 'preheatMinC', preheatMinC === null ? null : { min: preheatMinC, max: null }],
    [
      'interpass',
      'interpassMaxC',
      interpassMaxC === null ? null : { min: null, max: interpassMaxC },
    ],
  ]);
}
