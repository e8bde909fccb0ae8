import type { ArgumentRefusal, Bound } from '../result.js';
import { firstRefusal } from '../quantities.js';

/** Elements that a carbon equivalent or its range asks for. */
export const elements = ['C', 'Si', 'Mn', 'Cr', 'Mo', 'Ni', 'Cu', 'V', 'B', 'Nb', 'Ti'] as const;
export type ChemicalElement = (typeof elements)[number];

/** Heat analysis in % by mass. An element that is left out or null is not known, which is not the same as 0. */
export type Analysis = { readonly [E in ChemicalElement]?: number | null | undefined };

const massShare: Bound = { min: 0, max: 100, unit: '%' };

function missing(element: ChemicalElement, given: unknown): ArgumentRefusal {
  const allowed = `${element} in % by mass, which is not known; a number from 0 to 100, 0 only where the analysis says so`;
  return { argument: `analysis.${element}`, given, allowed };
}

/** The first element that is not a share in %, or that the formula needs and the analysis leaves open. */
export function analysisRefusal(
  analysis: Analysis,
  needed: readonly ChemicalElement[],
): ArgumentRefusal | null {
  const open = needed.find((element) => (analysis[element] ?? null) === null);
  if (open) return missing(open, analysis[open]);
  return firstRefusal(
    knownElements(analysis).map((element) => [`analysis.${element}`, analysis[element], massShare]),
  );
}

/** The elements that the analysis gives. */
export function knownElements(analysis: Analysis): ChemicalElement[] {
  return elements.filter((element) => (analysis[element] ?? null) !== null);
}

/** Each element's share times its weight, in %; elements without a weight are left out. */
export function weighted(
  analysis: Analysis,
  weights: Partial<Record<ChemicalElement, number>>,
): Partial<Record<ChemicalElement, number>> {
  return Object.fromEntries(
    elements
      .filter((element) => element in weights)
      .map((element) => [element, (analysis[element] ?? 0) * (weights[element] ?? 0)]),
  );
}
