import { asmeWelders } from './asme-ix/people.js';
import { asmeProcedures } from './asme-ix/procedures.js';
import { awsProcedures2015 } from './aws-d1-1/edition-2015.js';
import { awsProcedures2020 } from './aws-d1-1/edition-2020.js';
import { awsWelders } from './aws-d1-1/people.js';
import { iso14732y2013 } from './iso-14732/edition-2013.js';
import { iso15614y2004 } from './iso-15614-1/edition-2004.js';
import { iso15614y2017 } from './iso-15614-1/edition-2017.js';
import { iso9606y2012 } from './iso-9606-1/edition-2012.js';
import type { OperatorTest, ProcedureTest, WelderTest } from './records.js';
import { suggestFrom, type SuggestedRanges } from './suggest.js';

const procedureBooks = [
  iso15614y2017,
  iso15614y2004,
  ...asmeProcedures,
  awsProcedures2020,
  awsProcedures2015,
];
const welderBooks = [iso9606y2012, ...asmeWelders, ...awsWelders];
const operatorBooks = [iso14732y2013];

/**
 * The ranges a procedure test gives, one per variable with clause, source and confidence, or why nothing can be
 * said. They suggest and cross-check; the range printed on the signed record is the one that counts.
 */
export function suggestProcedureRanges(test: ProcedureTest): SuggestedRanges {
  return suggestFrom(procedureBooks, test);
}

/** The ranges a welder's test gives; the range printed on the signed certificate is the one that counts. */
export function suggestWelderRanges(test: WelderTest): SuggestedRanges {
  return suggestFrom(welderBooks, test);
}

/** The ranges the test of an operator or setter gives; the signed certificate is the one that counts. */
export function suggestOperatorRanges(test: OperatorTest): SuggestedRanges {
  return suggestFrom(operatorBooks, test);
}

export type { CodeFamily, CodeId } from './code-names.js';
export { codeIdOf, editionYear, familyNamed, familyOf } from './code-names.js';
export { procedureTest, operatorTest, welderTest } from './records.js';
export type { OperatorTest, ProcedureTest, WelderTest } from './records.js';
export type { Band, Confidence, RangeVariable } from './rule.js';
export { bandWords, limitShown, valueWords } from './value-words.js';
export { suggestedFor } from './suggest.js';
export type { CannotSayReason, Suggested, SuggestedRanges } from './suggest.js';
export { coversMaterialPair } from './iso-15614-1/materials.js';
export type { GroupedMaterial, MaterialPair } from './iso-15614-1/materials.js';
export { levelOf, levelServes } from './iso-15614-1/level.js';
export { coversPNumbers } from './asme-ix/p-numbers.js';
export { maxSinglePassFilletMm, mayBePrequalified } from './aws-d1-1/prequalified.js';
export { crossCheck } from './cross-check.js';
export type { CrossCheck, Typed } from './cross-check.js';
export { judgeSuggested } from './judge.js';
