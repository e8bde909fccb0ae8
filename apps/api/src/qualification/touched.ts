import { fitWeld, worstResult, type FitLine, type FitVariable } from '@tackboard/calc';
import type { Touched, Weld, WpsRanges } from '@tackboard/contract';
import { fitWords } from '../queue/fit-words.js';
import { weldFacts } from '../queue/fit.js';

/** What a drawing fixes; what is loaded and dialled is judged at the cell. */
const byDrawing: ReadonlySet<FitVariable> = new Set([
  ...([
    'process',
    'materialGroup',
    'yield',
    'thickness',
    'jointType',
    'throat',
    'position',
  ] as const),
]);

const nothingSet = {
  ...{ mechanisation: null, wireDiameterMm: null, filler: null, gas: null, currentA: null },
  ...{ voltageV: null, wireSpeedMMin: null, travelMmMin: null, preheatC: null },
};

function drawingLines(weld: Weld, ranges: WpsRanges): FitLine[] {
  const { lines } = fitWeld({ weld: weldFacts(weld), settings: nothingSet, wps: ranges });
  return lines.filter(({ variable }) => byDrawing.has(variable));
}

/** The welds of a step against a procedure, by what the drawing fixes: the worst answer, and what misses in words. */
export function coversByDrawing(
  welds: readonly Weld[],
  ranges: WpsRanges,
): Pick<Touched['jobs'][number], 'result' | 'words'> {
  if (welds.length === 0) return { result: 'cannotSay', words: 'the step has no weld list' };
  const judged = welds.map((weld) => ({ weld, lines: drawingLines(weld, ranges) }));
  const result = worstResult(judged.flatMap(({ lines }) => lines.map((line) => line.result)));
  if (result === 'inside') return { result, words: 'covered' };
  const words = judged.flatMap(({ weld, lines }) =>
    lines
      .filter((line) => line.result !== 'inside')
      .map((line) => `weld ${weld.number}: ${fitWords(line)}`),
  );
  return { result, words: words.join('; ') };
}
