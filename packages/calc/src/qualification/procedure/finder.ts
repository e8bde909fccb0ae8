import type { FitLine, FitResult, FitVariable } from '../answer.js';
import { weldLines, type WeldFacts, type WpsRanges } from '../fit.js';
import {
  judgeListed,
  judgeMaterialGroups,
  marginOf,
  resultOfNumber,
  type Range,
} from '../range.js';

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
  return Uint8Array.from(procedures, ({ ranges }) => codes[resultOf(ranges)]);
}

function worstOf(answers: readonly Answers[], count: number): Answers {
  const [first, ...rest] = answers;
  if (first === undefined) return new Uint8Array(count).fill(codes.cannotSay);
  if (rest.length === 0) return first;
  return first.map((code, at) =>
    rest.reduce((worst, each) => Math.max(worst, each[at] ?? 1), code),
  );
}

type ListKey = 'process' | 'mechanisation' | 'jointType' | 'position';
const allowedBy: Readonly<Record<ListKey, (ranges: WpsRanges) => readonly string[]>> = {
  process: ({ process }) => (process.trim() === '' ? [] : [process]),
  mechanisation: ({ mechanisations }) => mechanisations,
  jointType: ({ jointTypes }) => jointTypes,
  position: ({ positions }) => positions,
};

/** Looks answers up, and asks the procedures once per value that has not been seen. */
function bookOf(procedures: readonly FoundProcedure[]) {
  const seen = new Map<string, Answers>();
  const remember = (key: string, resultOf: (ranges: WpsRanges) => FitResult): Answers => {
    const found = seen.get(key);
    if (found !== undefined) return found;
    const answers = answersOf(procedures, resultOf);
    seen.set(key, answers);
    return answers;
  };
  return {
    listed: (variable: ListKey, given: string | null) =>
      remember(`${variable} ${given ?? ''}`, (ranges) => {
        return judgeListed({ variable, given, allowed: allowedBy[variable](ranges) }).result;
      }),
    group: (group: string) =>
      remember(`group ${group}`, ({ materialGroups }) => {
        return judgeMaterialGroups({ variable: 'materialGroup', allowed: materialGroups }, [group])
          .result;
      }),
    number: (variable: 'thicknessMm' | 'throatMm', given: number | null) =>
      remember(`${variable} ${given ?? ''}`, (ranges) => resultOfNumber(given, ranges[variable])),
  };
}

type Book = ReturnType<typeof bookOf>;
type Asked = readonly (readonly [FitVariable, Answers])[];

function askAll(book: Book, weld: WeldToCover, count: number): Asked {
  const asked: [FitVariable, Answers][] = [
    ['process', book.listed('process', weld.process)],
    ['jointType', book.listed('jointType', weld.jointType)],
    ['position', book.listed('position', weld.position)],
    ['materialGroup', worstOf(weld.materialGroups.map(book.group), count)],
    [
      'thickness',
      worstOf(
        weld.thicknessesMm.map((mm) => book.number('thicknessMm', mm)),
        count,
      ),
    ],
  ];
  if (weld.jointType === 'fillet') asked.push(['throat', book.number('throatMm', weld.throatMm)]);
  if (weld.mechanisation !== undefined) {
    asked.push(['mechanisation', book.listed('mechanisation', weld.mechanisation)]);
  }
  return asked;
}

/** How far off a missing procedure is, as a share of the nearer limit; a designation has no distance. */
function farness(variable: FitVariable, weld: WeldToCover, ranges: WpsRanges): number {
  const share = (given: number, range: Range | null) => {
    if (range === null) return Infinity;
    const limit = range.min !== null && given < range.min ? range.min : (range.max ?? given);
    return -marginOf(given, range) / Math.max(Math.abs(limit), 1e-9);
  };
  if (variable === 'thickness') {
    return Math.max(...weld.thicknessesMm.map((mm) => share(mm, ranges.thicknessMm)));
  }
  return variable === 'throat' && weld.throatMm !== null
    ? share(weld.throatMm, ranges.throatMm)
    : Infinity;
}

interface Miss {
  at: number;
  variable: FitVariable;
  far: number;
}

/** Keeps the nearest few in order; the first of equals stays. */
function keepNearest(misses: Miss[], miss: Miss, most: number): void {
  if (misses.length === most && miss.far >= (misses[most - 1]?.far ?? Infinity)) return;
  const place = misses.findIndex(({ far }) => far > miss.far);
  misses.splice(place === -1 ? misses.length : place, 0, miss);
  if (misses.length > most) misses.pop();
}

function lineFor(miss: Miss, weld: WeldToCover, procedure: FoundProcedure) {
  const cell = weld.mechanisation === undefined ? {} : { mechanisation: weld.mechanisation };
  const line = weldLines(weld, cell, procedure.ranges).find(
    ({ variable }) => variable === miss.variable,
  );
  return line === undefined ? [] : [{ procedureId: procedure.id, line }];
}

function coverageOf(
  weld: WeldToCover,
  around: { procedures: readonly FoundProcedure[]; book: Book; mostMisses: number },
): WeldCoverage {
  const { procedures, book, mostMisses } = around;
  const asked = askAll(book, weld, procedures.length);
  const covering: string[] = [];
  const cannotSay: string[] = [];
  const misses: Miss[] = [];
  procedures.forEach((procedure, at) => {
    let missed: FitVariable | null = null;
    let isUnsure = false;
    for (const [variable, answers] of asked) {
      const code = answers[at];
      if (code === codes.inside) continue;
      if (code === codes.cannotSay) {
        isUnsure = true;
        continue;
      }
      if (missed !== null) return;
      missed = variable;
    }
    if (missed === null) (isUnsure ? cannotSay : covering).push(procedure.id);
    else if (!isUnsure && mostMisses > 0) {
      const far = farness(missed, weld, procedure.ranges);
      keepNearest(misses, { at, variable: missed, far }, mostMisses);
    }
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
  const around = { procedures, mostMisses, book: bookOf(procedures) };
  return welds.map((weld) => coverageOf(weld, around));
}
