import {
  operatorTest,
  suggestOperatorRanges,
  suggestWelderRanges,
  welderTest,
  type SuggestedRanges,
} from '@tackboard/calc';
import type { BodyOf, CertificateSuggestions, qualification } from '@tackboard/contract';
import { certificateDates } from '../people/certificate-dates.js';
import { known, suggestionViews, transferLetter, typedFields } from './rule-words.js';

type CertificateTyped = BodyOf<(typeof qualification)['suggestCertificate']>;

/**
 * What the range rules give for a person's test, how the ranges typed from the certificate lie to it, and until when
 * it holds. `unit` is the cell that an operator's or setter's certificate is bound to.
 */
export function certificateSuggestions(
  typed: CertificateTyped,
  unit: { code: string; mechanisation: string } | null,
): CertificateSuggestions {
  const suggested = rangesOf(typed, unit);
  return {
    code: suggested.code,
    edition: suggested.edition,
    cannotSay: suggested.cannotSay?.words ?? null,
    ranges: suggestionViews(suggested, fieldsOf(typed)),
    dates: typed.testedOn === null ? null : datesOf(typed, typed.testedOn),
  };
}

function rangesOf(
  typed: CertificateTyped,
  unit: { code: string; mechanisation: string } | null,
): SuggestedRanges {
  const { testPiece: piece } = typed;
  const common = {
    code: typed.code,
    edition: known(typed.edition),
    process: known(typed.process),
    position: known(piece.position),
  };
  if (typed.kind !== 'welder') {
    return suggestOperatorRanges(
      operatorTest({
        ...common,
        unit: unit?.code ?? null,
        mechanisation: unit?.mechanisation ?? null,
        runs: piece.runs,
      }),
    );
  }
  return suggestWelderRanges(
    welderTest({
      ...common,
      transfer: transferLetter(piece.transfer),
      jointType: known(piece.jointType),
      supplementaryFillet: piece.supplementaryFillet,
      product: piece.product,
      thicknessMm: piece.thicknessMm,
      depositedMm: piece.depositedMm,
      diameterMm: piece.diameterMm,
      layers: piece.layers,
      weldDetail: known(piece.weldDetail),
      fillerGroup: known(piece.fillerGroup),
      materialGroup: known(piece.materialGroup),
    }),
  );
}

function datesOf(typed: CertificateTyped, testedOn: string): CertificateSuggestions['dates'] {
  const { code, renewalRoute } = typed;
  return certificateDates({ code, renewalRoute, testedOn, validUntil: null, confirmedOn: [] }).rule;
}

/** A fillet certificate prints the thickness of the parts, a butt certificate the metal laid. */
function fieldsOf(typed: CertificateTyped) {
  const ofButt = known(typed.testPiece.jointType) === 'butt';
  return typedFields([
    ['process', 'process', known(typed.process) === null ? null : [typed.process]],
    ['jointType', 'jointTypes', typed.jointTypes],
    ['position', 'positions', typed.positions],
    ['materialGroup', 'materialGroups', typed.materialGroups],
    ['fillerGroup', 'fillerGroups', typed.fillerGroups],
    [ofButt ? 'depositedThickness' : 'thickness', 'thicknessMm', typed.thicknessMm],
    ['diameter', 'diameterMm', typed.diameterMm],
  ]);
}
