import type { FitLine, FitResult, FitVariable } from '../answer.js';
import { hasThroat, weldLine, type WeldFacts, type WpsRanges } from '../fit.js';
import { judgeJoinedGroups } from '../joined-groups.js';
import { judgeListed, marginOf, toleranceOf, type Range } from '../range.js';

export interface FoundProcedure {
  id: string;
  ranges: WpsRanges;
}
export interface WeldToCover extends WeldFacts {
  id: string;
  /** Of the cell it is to be made at; left out, any mechanisation will do. */
  mechanisation?: string | null;
}

/** What the procedures on file say to one weld. */
export interface WeldCoverage {
  weldId: string;
  covering: readonly string[];
  /** Nothing is outside, but something cannot be told. */
  cannotSay: readonly string[];
  /** Procedures that miss by one variable alone, nearest first; `line.margin` is the distance. */
  nearestMisses: readonly { procedureId: string; line: FitLine }[];
}

const codes: Readonly<Record<FitResult, number>> = { inside: 0, cannotSay: 1, outside: 2 };

/** The answers of every procedure to one value of one variable; values recur from weld to weld. */
type Answers = Uint8Array;

function answersOf(
  procedures: readonly FoundProcedure[],
  resultOf: (ranges: WpsRanges) => FitResult,
): Answers {
  const answers = new Uint8Array(procedures.length);
  procedures.forEach(({ ranges }, at) => {
    answers[at] = codes[resultOf(ranges)];
  });
  return answers;
}

type ListKey = 'process' | 'mechanisation' | 'jointType' | 'position';
const allowedBy: Readonly<Record<ListKey, (ranges: WpsRanges) => readonly string[]>> = {
  process: ({ process }) => (process.trim() === '' ? [] : [process]),
  mechanisation: ({ mechanisations }) => mechanisations,
  jointType: ({ jointTypes }) => jointTypes,
  position: ({ positions }) => positions,
};

type NumberKey = 'thicknessMm' | 'throatMm';

/** The limits of every procedure side by side: a value lies inside where its room on both sides is not below these. */
interface Limits {
  min: Float64Array;
  max: Float64Array;
  minRoom: Float64Array;
  maxRoom: Float64Array;
  stated: Uint8Array;
}

function limitsOf(procedures: readonly FoundProcedure[], key: NumberKey): Limits {
  const floats = () => new Float64Array(procedures.length);
  const limits: Limits = {
    ...{ min: floats(), max: floats(), minRoom: floats(), maxRoom: floats() },
    stated: new Uint8Array(procedures.length),
  };
  procedures.forEach(({ ranges }, at) => {
    const { min, max } = ranges[key] ?? { min: null, max: null };
    limits.min[at] = min ?? -Infinity;
    limits.max[at] = max ?? Infinity;
    limits.minRoom[at] = -toleranceOf(min ?? 0);
    limits.maxRoom[at] = -toleranceOf(max ?? 0);
    limits.stated[at] = min === null && max === null ? 0 : 1;
  });
  return limits;
}

/** Writes what each procedure says to one value where it is worse than what stands there. */
function judgeAll(answers: Answers, { min, max, minRoom, maxRoom, stated }: Limits, value: number) {
  for (let at = 0; at < answers.length; at += 1) {
    if (stated[at] === 0) {
      if (answers[at] === codes.inside) answers[at] = codes.cannotSay;
    } else if (
      value - (min[at] as number) < (minRoom[at] as number) ||
      (max[at] as number) - value < (maxRoom[at] as number)
    ) {
      answers[at] = codes.outside;
    }
  }
}

/**
 * Looks the answers to designations up, and asks the procedures once per designation that has not been seen. Numbers
 * differ from weld to weld; their answers are written over those of the weld before.
 */
function bookOf(procedures: readonly FoundProcedure[]) {
  const seen = new Map<string, Answers>();
  const count = procedures.length;
  const remember = (key: string, answersFor: () => Answers): Answers => {
    const answers = seen.get(key) ?? answersFor();
    seen.set(key, answers);
    return answers;
  };
  const written = { thicknessMm: new Uint8Array(count), throatMm: new Uint8Array(count) };
  const limits = {
    thicknessMm: limitsOf(procedures, 'thicknessMm'),
    throatMm: limitsOf(procedures, 'throatMm'),
  };
  return {
    listed: (variable: ListKey, given: string | null) =>
      remember(`${variable} ${given ?? ''}`, () =>
        answersOf(procedures, (ranges) => {
          return judgeListed({ variable, given, allowed: allowedBy[variable](ranges) }).result;
        }),
      ),
    groups: (given: readonly string[]) =>
      remember(`groups ${given.join(' + ')}`, () =>
        answersOf(procedures, ({ materialGroups: allowed }) => {
          return judgeJoinedGroups({ variable: 'materialGroup', allowed }, given).result;
        }),
      ),
    yields: (weld: WeldToCover) =>
      remember(`yields ${weld.materialGroups.join(' + ')} ${String(weld.yieldsMPa)}`, () =>
        answersOf(procedures, (wps) => {
          return weldLine('yield', { weld, cell: {}, wps })?.result ?? 'inside';
        }),
      ),
    numbers: (key: NumberKey, given: readonly (number | null)[]) => {
      const answers = written[key];
      const untold = given.length === 0 || given.some((each) => !Number.isFinite(each));
      answers.fill(untold ? codes.cannotSay : codes.inside);
      for (const value of given) {
        if (value !== null && Number.isFinite(value)) judgeAll(answers, limits[key], value);
      }
      return answers;
    },
  };
}

type Book = ReturnType<typeof bookOf>;
type Asked = readonly (readonly [FitVariable, Answers])[];

function askAll(book: Book, weld: WeldToCover): Asked {
  const asked: [FitVariable, Answers][] = [
    ['process', book.listed('process', weld.process)],
    ['jointType', book.listed('jointType', weld.jointType)],
    ['position', book.listed('position', weld.position)],
    ['materialGroup', book.groups(weld.materialGroups)],
    ['thickness', book.numbers('thicknessMm', weld.thicknessesMm)],
  ];
  if (weld.yieldsMPa !== undefined) asked.push(['yield', book.yields(weld)]);
  if (hasThroat(weld)) asked.push(['throat', book.numbers('throatMm', [weld.throatMm])]);
  if (weld.mechanisation !== undefined) {
    asked.push(['mechanisation', book.listed('mechanisation', weld.mechanisation)]);
  }
  return asked;
}

/** Distance outside a range as a share of the limit that is missed. */
function shareOutside(given: number, range: Range | null): number {
  if (range === null) return Infinity;
  const limit = range.min !== null && given < range.min ? range.min : (range.max ?? given);
  return -marginOf(given, range) / Math.max(Math.abs(limit), 1e-9);
}

/** How far off a procedure is by the one variable it misses; a designation has no distance. */
function farness(variable: FitVariable, weld: WeldToCover, ranges: WpsRanges): number {
  if (variable === 'throat' && weld.throatMm !== null) {
    return shareOutside(weld.throatMm, ranges.throatMm);
  }
  if (variable !== 'thickness') return Infinity;
  let far = -Infinity;
  for (const mm of weld.thicknessesMm) far = Math.max(far, shareOutside(mm, ranges.thicknessMm));
  return far;
}

interface Miss {
  at: number;
  variable: FitVariable;
  far: number;
}

/** Keeps the nearest few in order; the first of equals stays. */
function keepNearest(misses: Miss[], miss: Miss, most: number): void {
  const place = misses.findIndex(({ far }) => far > miss.far);
  misses.splice(place === -1 ? misses.length : place, 0, miss);
  if (misses.length > most) misses.pop();
}

function lineFor(miss: Miss, weld: WeldToCover, procedure: FoundProcedure) {
  const cell = weld.mechanisation === undefined ? {} : { mechanisation: weld.mechanisation };
  const line = weldLine(miss.variable, { weld, cell, wps: procedure.ranges });
  return line === null ? [] : [{ procedureId: procedure.id, line }];
}

const noneMissed = -1;
const manyMissed = -2;

/** Of every procedure the index of the only asked variable that is outside, and whether anything cannot be told. */
interface Tally {
  missed: Int8Array;
  unsure: Uint8Array;
}

function tallyOf(answers: readonly Answers[], { missed, unsure }: Tally): void {
  missed.fill(noneMissed);
  unsure.fill(0);
  answers.forEach((each, index) => {
    for (let at = 0; at < missed.length; at += 1) {
      if (each[at] === codes.outside) missed[at] = missed[at] === noneMissed ? index : manyMissed;
      else if (each[at] === codes.cannotSay) unsure[at] = 1;
    }
  });
}

interface Around {
  procedures: readonly FoundProcedure[];
  book: Book;
  mostMisses: number;
  /** Written over from weld to weld. */
  tally: Tally;
}

function coverageOf(
  weld: WeldToCover,
  { procedures, book, mostMisses, tally }: Around,
): WeldCoverage {
  const asked = askAll(book, weld);
  const covering: string[] = [];
  const cannotSay: string[] = [];
  const misses: Miss[] = [];
  tallyOf(
    asked.map(([, each]) => each),
    tally,
  );
  procedures.forEach(({ id, ranges }, at) => {
    const missed = tally.missed[at] ?? manyMissed;
    if (missed === manyMissed) return;
    const unsure = tally.unsure[at] === 1;
    if (missed === noneMissed) (unsure ? cannotSay : covering).push(id);
    const variable = asked[missed]?.[0];
    if (variable === undefined || unsure || mostMisses <= 0) return;
    const far = farness(variable, weld, ranges);
    if (misses.length === mostMisses && far >= (misses[mostMisses - 1]?.far ?? far)) return;
    keepNearest(misses, { at, variable, far }, mostMisses);
  });
  const nearestMisses = misses.flatMap((miss) => {
    const procedure = procedures[miss.at];
    return procedure === undefined ? [] : lineFor(miss, weld, procedure);
  });
  return { weldId: weld.id, covering, cannotSay, nearestMisses };
}

/**
 * For every weld the procedures that cover it by drawing, those that cannot be told, and the nearest misses with the
 * one variable and its distance. What is loaded and dialled at a cell is judged later. 5 000 welds against 300
 * procedures take well under a second.
 */
export function findProcedures(facts: {
  welds: readonly WeldToCover[];
  procedures: readonly FoundProcedure[];
  mostMisses?: number;
}): WeldCoverage[] {
  const { welds, procedures, mostMisses = 3 } = facts;
  const count = procedures.length;
  const tally = { missed: new Int8Array(count), unsure: new Uint8Array(count) };
  const around = { procedures, mostMisses, tally, book: bookOf(procedures) };
  return welds.map((weld) => coverageOf(weld, around));
}
