import { firstOutside, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type Bound,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { metalBounds } from './bounds.js';

/** What EN 1011-2 C.3 adds to the CET of the weld metal before it counts against the parent metal. */
const weldMetalMargin = 0.03;
/** Plate this warm or warmer counts as not preheated. */
const roomC = 20;
const roundingC = 5;

const validity = {
  cetPct: { min: 0.2, max: 0.5, unit: '%' },
  thicknessMm: { min: 10, max: 90, unit: 'mm' },
  hydrogenMlPer100g: { min: 1, max: 20, unit: 'ml/100 g' },
  heatInputKjMm: { min: 0.5, max: 4, unit: 'kJ/mm' },
  yieldMpa: { min: 300, max: 1_000, unit: 'MPa' },
} satisfies Record<string, Bound>;

interface MethodBInputs {
  /** CET of the parent metal; where two are joined, of the higher one. */
  cetPct: number;
  /** CET of the weld metal, where it is known. */
  weldMetalCetPct?: number | null | undefined;
  /** Of one plate, the thicker one. Not the combined thickness of method A. */
  thicknessMm: number;
  /** Diffusible hydrogen of the weld metal. */
  hydrogenMlPer100g: number;
  /** With the factor k, not arc energy. */
  heatInputKjMm: number;
  /** Of the parent metal, where it is to be checked against the range of the method. */
  yieldMpa?: number | null | undefined;
}

interface MethodBParts {
  /** The CET that counts: of the parent metal, or of the weld metal with its margin where that is higher. */
  governingCetPct: number;
  /** The terms in K; with `constantC` they sum to the value. */
  cetTermK: number;
  thicknessTermK: number;
  hydrogenTermK: number;
  heatInputTermK: number;
  constantC: number;
  /** Up to the next 5 degC; null where the method asks for no preheat. */
  roundedUpC: number | null;
}

function possible(inputs: MethodBInputs) {
  const { weldMetalCetPct, yieldMpa } = inputs;
  return firstRefusal([
    ['cetPct', inputs.cetPct, metalBounds.carbonEquivalentPct],
    ['weldMetalCetPct', weldMetalCetPct ?? inputs.cetPct, metalBounds.carbonEquivalentPct],
    ['thicknessMm', inputs.thicknessMm, metalBounds.thicknessMm],
    ['hydrogenMlPer100g', inputs.hydrogenMlPer100g, metalBounds.hydrogenMlPer100g],
    ['heatInputKjMm', inputs.heatInputKjMm, metalBounds.heatInputKjMm],
    ['yieldMpa', yieldMpa ?? validity.yieldMpa.min, metalBounds.yieldMpa],
  ]);
}

function governingCet({ cetPct, weldMetalCetPct }: MethodBInputs): number {
  return Math.max(cetPct, (weldMetalCetPct ?? -weldMetalMargin) + weldMetalMargin);
}

function outside(inputs: MethodBInputs) {
  const { min, max } = validity.cetPct;
  const weldMetalCet = {
    min: min - weldMetalMargin,
    max: max - weldMetalMargin,
    unit: '%, to which 0.03 is added',
  };
  return firstOutside('en1011MethodB', [
    governingCet(inputs) > inputs.cetPct
      ? ['weldMetalCetPct', inputs.weldMetalCetPct, weldMetalCet]
      : ['cetPct', inputs.cetPct, validity.cetPct],
    ['thicknessMm', inputs.thicknessMm, validity.thicknessMm],
    ['hydrogenMlPer100g', inputs.hydrogenMlPer100g, validity.hydrogenMlPer100g],
    ['heatInputKjMm', inputs.heatInputKjMm, validity.heatInputKjMm],
    ['yieldMpa', inputs.yieldMpa ?? validity.yieldMpa.min, validity.yieldMpa],
  ]);
}

function termsOf(cetPct: number, inputs: MethodBInputs) {
  return {
    cetTermK: 697 * cetPct,
    thicknessTermK: 160 * Math.tanh(inputs.thicknessMm / 35),
    hydrogenTermK: 62 * inputs.hydrogenMlPer100g ** 0.35,
    heatInputTermK: (53 * cetPct - 32) * inputs.heatInputKjMm,
    constantC: -328,
  };
}

/**
 * Least preheat in degC by EN 1011-2 method B (C.3): 697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328.
 * Outside CET 0.2-0.5, d 10-90 mm, HD 1-20 ml/100 g, Q 0.5-4 kJ/mm or a yield of 300-1000 MPa it answers
 * outside the method. A value at or below 20 degC means no preheat by this method, not no precautions.
 * The governing code, the approved WPS and the responsible welding coordinator decide.
 */
export function preheatMethodB(
  inputs: MethodBInputs,
): CalculationInParts<MethodBInputs, MethodBParts> {
  const refusal = possible(inputs) ?? outside(inputs);
  if (refusal) return refused(refusal);
  const governingCetPct = governingCet(inputs);
  const terms = termsOf(governingCetPct, inputs);
  const value = Object.values(terms).reduce((sum, term) => sum + term, 0);
  const warnings: Warning[] = [{ code: 'coordinatorDecides', given: null }];
  if (value <= roomC) warnings.push({ code: 'noPreheatByMethod', given: value });
  return {
    ...calculated({
      value,
      unit: 'degC',
      inputs,
      sources: ['en1011MethodB', 'methodBRange', 'sew088', 'steelMakerHandbook'],
      warnings,
      validity,
    }),
    parts: { governingCetPct, ...terms, roundedUpC: value <= roomC ? null : roundedUp(value) },
  };
}

function roundedUp(temperatureC: number): number {
  return Math.ceil(temperatureC / roundingC) * roundingC;
}
