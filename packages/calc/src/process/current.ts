import { firstRefusal, secondsPerMinute } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

/** Melting rate of solid steel wire 1.2 mm: alpha x I + beta x extension x I^2, in mm/s; from memory. */
const melting = { wireDiameterMm: 1.2, alphaMmPerAs: 0.3, betaPerA2s: 5e-5 };
const usualExtensionMm = 15;
/** Ends of the free wire length that a torch at a fillet is held at; it alone moves the wire speed by 14 to 28 %. */
const extensions = { shortMm: 12, longMm: 20 };
/** Allowance for coefficients that no print confirms. */
const coefficientShare = 0.1;
/** Where the relation was compared with printed settings, as the current of a 1.2 mm wire. */
const comparedA = { min: 130, max: 350 };
const mmPerMetre = 1000;

const wire = { min: 1, max: 1.6, unit: 'mm' };
const extension = { min: extensions.shortMm, max: extensions.longMm, unit: 'mm' };

/** Current of a 1.2 mm wire that melts at the same speed: alpha goes with d^-2, beta with d^-4. */
function as12(currentA: number, wireDiameterMm: number): number {
  return currentA * (melting.wireDiameterMm / wireDiameterMm) ** 2;
}

function speedMMin(currentA: number, wireDiameterMm: number, extensionMm: number): number {
  const i = as12(currentA, wireDiameterMm);
  const mmPerS = melting.alphaMmPerAs * i + melting.betaPerA2s * extensionMm * i ** 2;
  return (mmPerS * secondsPerMinute) / mmPerMetre;
}

function currentAt(wireSpeedMMin: number, wireDiameterMm: number, extensionMm: number): number {
  const mmPerS = (wireSpeedMMin * mmPerMetre) / secondsPerMinute;
  const { alphaMmPerAs: a } = melting;
  const b = melting.betaPerA2s * extensionMm;
  const i = (Math.sqrt(a ** 2 + 4 * b * mmPerS) - a) / (2 * b);
  return i / as12(1, wireDiameterMm);
}

/** Current in A of a wire of this diameter that stands for one of a 1.2 mm wire. */
function comparedBound(wireDiameterMm: number) {
  const times = as12(1, wireDiameterMm);
  const { min, max } = comparedA;
  return { min: Math.ceil(min / times), max: Math.floor(max / times), unit: 'A' };
}

interface SpeedInputs {
  wireDiameterMm: number;
  currentA: number;
  extensionMm?: number | undefined;
}

/**
 * Wire speed in m/min that a current would melt, for solid steel wires 1.0 to 1.6 mm. A suggestion: the
 * coefficients are from memory, and below 1.0 mm the relation misses printed settings by up to 56 %, so it
 * refuses there.
 */
export function wireSpeedSuggestion(inputs: SpeedInputs): Calculation<Required<SpeedInputs>> {
  const { wireDiameterMm, currentA, extensionMm = usualExtensionMm } = inputs;
  const refusal =
    firstRefusal([
      ['wireDiameterMm', wireDiameterMm, wire],
      ['extensionMm', extensionMm, extension],
    ]) ?? firstRefusal([['currentA', currentA, comparedBound(wireDiameterMm)]]);
  if (refusal) return refused(refusal);
  return calculated({
    value: speedMMin(currentA, wireDiameterMm, extensionMm),
    unit: 'm/min',
    inputs: { wireDiameterMm, currentA, extensionMm },
    sources: ['meltingRate'],
    warnings: [{ code: 'suggestionOnly', given: null }],
  });
}

interface CurrentInputs {
  wireDiameterMm: number;
  wireSpeedMMin: number;
  extensionMm?: number | undefined;
}

/**
 * Current in A to expect at a wire speed, for solid steel wires 1.0 to 1.6 mm; a suggestion and never an input
 * of a heat input. `parts` is its band: free wire length 12 to 20 mm and 10 % for the coefficients. A shop's own
 * table comes before it. Refuses outside the speeds at which it was compared with print.
 */
export function currentSuggestion(
  inputs: CurrentInputs,
): CalculationInParts<Required<CurrentInputs>, { lowestA: number; highestA: number }> {
  const { wireDiameterMm, wireSpeedMMin, extensionMm = usualExtensionMm } = inputs;
  const shape = firstRefusal([
    ['wireDiameterMm', wireDiameterMm, wire],
    ['extensionMm', extensionMm, extension],
  ]);
  if (shape) return refused(shape);
  const { min, max } = comparedBound(wireDiameterMm);
  const speedAt = (currentA: number) => speedMMin(currentA, wireDiameterMm, extensionMm);
  const speeds = {
    min: Math.ceil(speedAt(min) * 10) / 10,
    max: Math.floor(speedAt(max) * 10) / 10,
    unit: 'm/min',
  };
  const refusal = firstRefusal([['wireSpeedMMin', wireSpeedMMin, speeds]]);
  if (refusal) return refused(refusal);
  const at = (mm: number) => currentAt(wireSpeedMMin, wireDiameterMm, mm);
  return {
    ...calculated({
      value: at(extensionMm),
      unit: 'A',
      inputs: { wireDiameterMm, wireSpeedMMin, extensionMm },
      sources: ['meltingRate'],
      warnings: [{ code: 'suggestionOnly', given: null }],
    }),
    parts: {
      lowestA: at(extensions.longMm) * (1 - coefficientShare),
      highestA: at(extensions.shortMm) * (1 + coefficientShare),
    },
  };
}
