import type { SourceId } from '../../sources/index.js';
import type { Band, CodeRules, Confidence, Given, RangeRule, RangeVariable } from './rule.js';
import { codeIdOf, editionYear } from './code-names.js';

interface Origin {
  variable: RangeVariable;
  unit: string | null;
  code: string;
  edition: string;
  clause: string;
  confidence: Confidence;
  source: SourceId;
  /** The test piece's own value. */
  tested: readonly (number | string)[];
}

export type CannotSayReason =
  'inputMissing' | 'unsureRow' | 'notGiven' | 'unknownCode' | 'unknownEdition' | 'outOfScope';

type SuggestedBand = Origin & { answer: 'range'; band: Band; unsure: Band | null };
type SuggestedList = Origin & {
  answer: 'list';
  values: readonly string[];
  unsure: readonly string[];
};
/** The code does not limit this variable. */
type SuggestedAny = Origin & { answer: 'any' };
/** `band` and `values` show what an unsure row would give; nothing may be called inside on their strength. */
type SuggestedUnknown = Origin & {
  answer: 'cannotSay';
  reason: CannotSayReason;
  words: string;
  band: Band | null;
  values: readonly string[] | null;
};
export type Suggested = SuggestedBand | SuggestedList | SuggestedAny | SuggestedUnknown;

/** The ranges a code gives for one test piece; `cannotSay` when its tables do not speak about it at all. */
export interface SuggestedRanges {
  code: string | null;
  edition: string | null;
  cannotSay: { reason: CannotSayReason; words: string } | null;
  ranges: readonly Suggested[];
}

interface TestRecord {
  code: string;
  edition: string | null;
}

function isKnown(key: string, value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value) && (key.endsWith('C') || value > 0);
  if (typeof value === 'string') return value.trim() !== '';
  if (Array.isArray(value)) return value.length > 0 && value.every((each) => isKnown(key, each));
  return typeof value === 'boolean';
}

function originOf<T>(rule: RangeRule<T>, rules: CodeRules<T>): Omit<Origin, 'tested'> {
  const { variable, unit, clause, confidence, source } = rule;
  return { variable, unit, clause, confidence, source, code: rules.code, edition: rules.edition };
}

function unknown(
  origin: Origin,
  why: { reason: CannotSayReason; words: string; given?: Given },
): SuggestedUnknown {
  const { reason, words, given } = why;
  const band = given !== undefined && 'band' in given ? (given.band ?? null) : null;
  const values = given !== undefined && 'values' in given ? given.values : null;
  return { ...origin, answer: 'cannotSay', reason, words, band, values };
}

function read<T extends TestRecord>(rule: RangeRule<T>, rules: CodeRules<T>, test: T): Suggested {
  const plain = originOf(rule, rules);
  const missing = rule.needs.filter((key) => !isKnown(key, test[key]));
  if (missing.length > 0) {
    const words = `the test record does not give ${missing.map(inputWords).join(', ')}`;
    return unknown({ ...plain, tested: [] }, { reason: 'inputMissing', words });
  }
  const origin = { ...plain, tested: rule.tested(test) };
  const given = rule.give(test);
  if ('cannotSay' in given) {
    return unknown(origin, { reason: 'notGiven', words: given.cannotSay, given });
  }
  if (rule.confidence === 'low') {
    const words = `${rules.code}:${rules.edition} ${rule.clause} is not known surely enough`;
    return unknown(origin, { reason: 'unsureRow', words, given });
  }
  if ('band' in given) {
    return { ...origin, answer: 'range', band: given.band, unsure: given.unsure ?? null };
  }
  if ('values' in given) {
    return { ...origin, answer: 'list', values: given.values, unsure: given.unsure ?? [] };
  }
  return { ...origin, answer: 'any' };
}

const wordsByKey = new Map<string, string>();

/** `impactRequired` as a person reads it: impact required. A shop's tests lack the same few inputs over and over. */
function inputWords(key: string): string {
  const known = wordsByKey.get(key);
  if (known !== undefined) return known;
  const plain = key.replace(/(KjMm|MmMin|MMin|LMin|MPa|Mm|Pct|Deg|[ACV])$/, '');
  const words = plain.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`).trim();
  wordsByKey.set(key, words);
  return words;
}

function firstPerVariable<T>(rules: CodeRules<T>, test: T): RangeRule<T>[] {
  const byVariable = new Map<RangeVariable, RangeRule<T>>();
  for (const rule of rules.rows) {
    if (!byVariable.has(rule.variable) && rule.applies(test)) byVariable.set(rule.variable, rule);
  }
  return [...byVariable.values()];
}

/** Reads one code's tables for a test piece; the first row that applies speaks for its variable. */
function readRules<T extends TestRecord>(rules: CodeRules<T>, test: T): SuggestedRanges {
  const { code, edition } = rules;
  const rows = firstPerVariable(rules, test);
  const scope = rules.outOfScope(test);
  if (scope === null) {
    return { code, edition, cannotSay: null, ranges: rows.map((row) => read(row, rules, test)) };
  }
  const why = { reason: 'outOfScope', words: scope } as const;
  const ranges = rows.map((row) => unknown({ ...originOf(row, rules), tested: [] }, why));
  return { code, edition, cannotSay: why, ranges };
}

/** The tables that a record names by code and edition, read for it; no other code's tables ever are. */
export function suggestFrom<T extends TestRecord>(
  books: readonly CodeRules<T>[],
  test: T,
): SuggestedRanges {
  const code = codeIdOf(test.code);
  const ofCode = books.filter((book) => book.code === code);
  if (code === null || ofCode.length === 0) {
    const words = `there are no range rules for ${test.code.trim() || 'a record without a code'}`;
    return { code, edition: null, cannotSay: { reason: 'unknownCode', words }, ranges: [] };
  }
  const edition = editionYear(code, test.edition) ?? editionYear(code, test.code);
  const book = ofCode.find((each) => each.edition === edition);
  if (book !== undefined) return readRules(book, test);
  const known = ofCode.map((each) => each.edition).join(', ');
  const given = edition ?? (test.edition?.trim() || 'not given');
  const words = `the edition of ${code} is ${given}; rules are on file for ${known}`;
  return { code, edition, cannotSay: { reason: 'unknownEdition', words }, ranges: [] };
}

/** The range of one variable among the suggested ones, or null when the code has no row for it. */
export function suggestedFor(ranges: SuggestedRanges, variable: RangeVariable): Suggested | null {
  return ranges.ranges.find((each) => each.variable === variable) ?? null;
}
