import { firstOutside } from '../quantities.js';
import {
  calculated,
  refused,
  type Bound,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import {
  analysisRefusal,
  elements,
  knownElements,
  weighted,
  type Analysis,
  type ChemicalElement,
} from './analysis.js';

type Weights = Partial<Record<ChemicalElement, number>>;

const ceWeights: Weights = {
  C: 1,
  Mn: 1 / 6,
  Cr: 1 / 5,
  Mo: 1 / 5,
  V: 1 / 5,
  Ni: 1 / 15,
  Cu: 1 / 15,
};
const cetWeights: Weights = { C: 1, Mn: 1 / 10, Mo: 1 / 10, Cr: 1 / 20, Cu: 1 / 20, Ni: 1 / 40 };
const pcmWeights: Weights = {
  C: 1,
  Si: 1 / 30,
  Mn: 1 / 20,
  Cu: 1 / 20,
  Cr: 1 / 20,
  Ni: 1 / 60,
  Mo: 1 / 15,
  V: 1 / 10,
  B: 5,
};

function share(min: number, max: number): Bound {
  return { min, max, unit: '%' };
}

/** The composition that CET was made for, in % by mass. */
const cetRange = {
  C: share(0.05, 0.32),
  Si: share(0, 0.8),
  Mn: share(0.5, 1.9),
  Cr: share(0, 1.5),
  Cu: share(0, 0.7),
  Mo: share(0, 0.75),
  Nb: share(0, 0.06),
  Ni: share(0, 2.5),
  Ti: share(0, 0.12),
  V: share(0, 0.18),
  B: share(0, 0.005),
} satisfies Record<ChemicalElement, Bound>;

/** Above this carbon content in % sources no longer use Pcm; they differ between 0.12 and 0.18. */
const pcmUsualMaxC = 0.18;

interface AnalysisInputs {
  /** Of the heat. The maxima of a grade are no analysis: together they exceed what the grade allows. */
  analysis: Analysis;
}
/** What each element adds, in %; the values sum to the equivalent. */
interface EquivalentParts {
  terms: Weights;
}
type Equivalent<P = object> = CalculationInParts<AnalysisInputs, EquivalentParts & P>;

function neededFor(weights: Weights): ChemicalElement[] {
  return Object.keys(weights) as ChemicalElement[];
}

function equivalent(inputs: AnalysisInputs, weights: Weights, warnings: readonly Warning[]) {
  const terms = weighted(inputs.analysis, weights);
  const value = Object.values(terms).reduce((sum, term) => sum + term, 0);
  return {
    ...calculated({ value, unit: '%', inputs, sources: ['carbonEquivalents'], warnings }),
    parts: { terms },
  };
}

/**
 * CE(IIW), also CEV, in %: C + Mn/6 + (Cr+Mo+V)/5 + (Ni+Cu)/15. Needs these seven elements and refuses by name
 * the one that is not known. Source: formula as steel makers print it; EN 1011-2, C.2.
 */
export function ceIiw(inputs: AnalysisInputs): Equivalent {
  const refusal = analysisRefusal(inputs.analysis, neededFor(ceWeights));
  return refusal ? refused(refusal) : equivalent(inputs, ceWeights, []);
}

/**
 * Pcm in %: C + Si/30 + (Mn+Cu+Cr)/20 + Ni/60 + Mo/15 + V/10 + 5B. Needs these nine elements, boron too: 0.002 %
 * of it adds 0.010. Warns above 0.18 % C, where another equivalent is usual.
 */
export function pcm(inputs: AnalysisInputs): Equivalent {
  const { analysis } = inputs;
  const refusal = analysisRefusal(analysis, neededFor(pcmWeights));
  if (refusal) return refused(refusal);
  const carbon = analysis.C ?? 0;
  const unusual = carbon > pcmUsualMaxC;
  return equivalent(
    inputs,
    pcmWeights,
    unusual ? [{ code: 'otherEquivalentUsual', given: carbon }] : [],
  );
}

/**
 * CET in %: C + (Mn+Mo)/10 + (Cr+Cu)/20 + Ni/40. Refuses a composition outside the range of EN 1011-2, C.3.
 * Elements that only bound the range and are not known come back as `parts.unchecked`, with a warning.
 */
export function cet(inputs: AnalysisInputs): Equivalent<{ unchecked: ChemicalElement[] }> {
  const { analysis } = inputs;
  const known = knownElements(analysis);
  const refusal =
    analysisRefusal(analysis, neededFor(cetWeights)) ??
    firstOutside(
      'cetRange',
      known.map((element) => [`analysis.${element}`, analysis[element], cetRange[element]]),
    );
  if (refusal) return refused(refusal);
  const unchecked = elements.filter((element) => !known.includes(element));
  const result = equivalent(
    inputs,
    cetWeights,
    unchecked.length > 0 ? [{ code: 'elementsUnchecked', given: unchecked.length }] : [],
  );
  return {
    ...result,
    sources: ['carbonEquivalents', 'cetRange'],
    validity: cetRange,
    parts: { ...result.parts, unchecked },
  };
}
