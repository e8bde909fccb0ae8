import { judgeJoinedGroups } from '@tackboard/calc';
import type { FieldRefusal, Wpqr } from '@tackboard/contract';
import {
  holdsWord,
  isStated,
  listWords,
  plainWord,
  rangeVariables,
  rangeWords,
  type Limits,
  type RangeVariable,
} from './range-words.js';

type Typed = Pick<Wpqr, 'process' | 'mechanisation' | 'testPiece' | 'testedValues' | 'ranges'>;

/**
 * Values of a test record that lie outside the range printed on the same record: one of the two is mistyped.
 * Fields are dotted paths into the body.
 */
export function testedValuesOutside(record: Typed): FieldRefusal[] {
  const { testPiece, testedValues, ranges } = record;
  return [
    ...outsideWords(record),
    ...outsideRange('testPiece.yieldMPa', 'yieldMPa', testPiece.yieldMPa, ranges),
    ...outsideRange('testPiece.thicknessMm', 'thicknessMm', testPiece.thicknessMm, ranges),
    ...outsideRange('testPiece.throatMm', 'throatMm', testPiece.throatMm, ranges),
    ...outsideRange(
      'testedValues.wireDiameterMm',
      'wireDiameterMm',
      testedValues.wireDiameterMm ?? null,
      ranges,
    ),
    ...(['currentA', 'voltageV', 'wireSpeedMMin', 'travelMmMin', 'heatInputKjMm'] as const).flatMap(
      (variable) =>
        outsideRange(`testedValues.${variable}`, variable, testedValues[variable], ranges),
    ),
    ...outsideLimits('testedValues.preheatC', testedValues.preheatC, {
      limits: { min: ranges.preheatMinC, max: null },
      words: 'preheat',
      unit: '°C',
    }),
    ...outsideLimits('testedValues.interpassC', testedValues.interpassC, {
      limits: { min: null, max: ranges.interpassMaxC },
      words: 'interpass temperature',
      unit: '°C',
    }),
  ];
}

function outsideWords({ process, mechanisation, testPiece, ranges }: Typed): FieldRefusal[] {
  const found: FieldRefusal[] = [];
  const add = (field: string, given: string, word: string, allowed: string) =>
    found.push({ field: `body.${field}`, given, allowed: `the printed ${word}: ${allowed}` });
  if (plainWord(process) !== plainWord(ranges.process)) {
    add('process', process, 'process', ranges.process);
  }
  if (!ranges.mechanisations.includes(mechanisation)) {
    add('mechanisation', mechanisation, 'mechanisation', listWords(ranges.mechanisations));
  }
  if (ranges.positions.length > 0 && !holdsWord(ranges.positions, testPiece.position)) {
    add('testPiece.position', testPiece.position, 'positions', listWords(ranges.positions));
  }
  const outsideGroup = joinedOutside(testPiece, ranges.materialGroups);
  if (outsideGroup !== null) {
    const allowed = listWords(ranges.materialGroups);
    add('testPiece.materialGroup', outsideGroup, 'material groups', allowed);
  }
  return found;
}

/** A second part that is not named is of the same group as the first. */
function joinedOutside(
  { materialGroup, materialGroupB = materialGroup }: Typed['testPiece'],
  allowed: readonly string[],
): string | null {
  const line = judgeJoinedGroups({ variable: 'materialGroup', allowed }, [
    materialGroup,
    materialGroupB,
  ]);
  if (line.result !== 'outside') return null;
  return allowed.some((entry) => entry.includes('-'))
    ? `${materialGroup} joined to ${materialGroupB}`
    : String(line.given);
}

function outsideRange(
  field: string,
  variable: RangeVariable,
  given: number | null,
  ranges: Typed['ranges'],
): FieldRefusal[] {
  const { word, unit } = rangeVariables[variable];
  return outsideLimits(field, given, { limits: ranges[variable] ?? null, words: word, unit });
}

function outsideLimits(
  field: string,
  given: number | null,
  printed: { limits: Limits | null; words: string; unit: string },
): FieldRefusal[] {
  const { limits, words, unit } = printed;
  if (given === null || !isStated(limits)) return [];
  const below = limits.min !== null && given < limits.min;
  const above = limits.max !== null && given > limits.max;
  if (!below && !above) return [];
  const allowed = `the printed range of ${words}: ${rangeWords(limits, unit)}`;
  return [{ field: `body.${field}`, given: String(given), allowed }];
}
