import {
  fitPolicy,
  judgeReadings,
  type FitAnswer,
  type FitResult,
  type PolicyTable,
} from '@tackboard/calc';
import type { FitLine, ReadingInput, WpsRanges } from '@tackboard/contract';
import { fitWords, numberWords } from '../queue/fit-words.js';

type Values = Pick<
  ReadingInput,
  'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin' | 'preheatC' | 'interpassC'
>;
type Dialled = 'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin';

export interface ReadingAnswer {
  readonly result: FitResult;
  readonly lines: FitLine[];
  readonly words: string[];
}

/** What a reading means against the procedure, in words; what was typed is never changed. */
export function answerReading(facts: {
  readings: Values;
  wps: { label: string; ranges: WpsRanges } | null;
  process: string | null;
  coded: boolean;
  policy: PolicyTable;
}): ReadingAnswer {
  const { readings, wps, process, coded, policy: table } = facts;
  const questions = questionsOf(readings, wps?.ranges ?? null);
  if (wps === null) {
    const words = ['No procedure is named for this run: it cannot be said whether this fits.'];
    return { result: 'cannotSay', lines: [], words: [...words, ...questions] };
  }
  const answer = judgeReadings({
    readings,
    wps: wps.ranges,
    process: process ?? wps.ranges.process,
  });
  return {
    result: answer.result,
    lines: answer.lines.map((line) => ({
      ...line,
      allowed: line.allowed && [...line.allowed],
      strength: fitPolicy({ variable: line.variable, result: line.result, coded, table }),
    })),
    words: [...answerWords(answer, wps.label), ...questions],
  };
}

function answerWords({ lines, result }: FitAnswer, label: string): string[] {
  if (result === 'inside') return [`All of it is inside ${label}.`];
  return lines.filter((line) => line.result !== 'inside').map((line) => `${fitWords(line)}.`);
}

/** Wide on purpose: what no arc in a shop does. Common practice, not a standard. */
const plausible: Readonly<
  Record<Dialled, { word: string; unit: string; min: number; max: number }>
> = {
  currentA: { word: 'current', unit: 'A', min: 10, max: 800 },
  voltageV: { word: 'voltage', unit: 'V', min: 8, max: 60 },
  wireSpeedMMin: { word: 'wire speed', unit: 'm/min', min: 0.5, max: 30 },
  travelMmMin: { word: 'travel', unit: 'mm/min', min: 20, max: 5000 },
};

/** Questions about what looks like a slip of the finger; the value is stored as typed all the same. */
function questionsOf(readings: Values, ranges: WpsRanges | null): string[] {
  const { currentA, voltageV } = readings;
  if (
    currentA !== null &&
    voltageV !== null &&
    voltageV > plausible.voltageV.max &&
    currentA < voltageV
  ) {
    return [
      `Were volts and amps swapped? ${numberWords(voltageV)} V and ${numberWords(currentA)} A are stored as typed.`,
    ];
  }
  return (Object.keys(plausible) as Dialled[]).flatMap((key) => {
    const given = readings[key];
    return given === null ? [] : slipWords(key, given, ranges);
  });
}

function slipWords(key: Dialled, given: number, ranges: WpsRanges | null): string[] {
  const { word, unit, min, max } = plausible[key];
  const range = ranges?.[key] ?? null;
  const inside = (value: number) =>
    range !== null &&
    (range.min === null || value >= range.min) &&
    (range.max === null || value <= range.max);
  const meant = [given / 10, given * 10].find(inside);
  const stored = `${numberWords(given)} ${unit} is stored as typed`;
  if (range !== null && !inside(given) && meant !== undefined) {
    return [`Was a ${word} of ${numberWords(meant)} ${unit} meant? ${stored}.`];
  }
  return given < min || given > max
    ? [
        `A ${word} of ${numberWords(given)} ${unit} is not plausible; look again. It is stored as typed.`,
      ]
    : [];
}
