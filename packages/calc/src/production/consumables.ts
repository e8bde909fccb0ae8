import { wireGramsPerMetre } from '../process/wire.js';
import { bounds, firstRefusal, secondsPerMinute, steelDensityKgM3 } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';

const gramsPerKilogram = 1000;
/** Keeps an exact stock from falling one part short by the last binary digit. */
const wholePartTolerance = 1e-9;

function wholeParts(stock: number, perPart: number): number {
  return Math.floor((stock / perPart) * (1 + wholePartTolerance));
}

interface WireInputs {
  wireDiameterMm: number;
  wireSpeedMMin: number;
  /** Arc time of one part. */
  arcS: number;
  quantity: number;
  /** What is left on the feeder; null where nobody knows. */
  onFeederKg?: number | null | undefined;
  densityKgM3?: number | undefined;
}

interface WireParts {
  perPartG: number;
  /** Whole parts that the feeder is good for; null where its rest is not known. */
  partsPossible: number | null;
}

/** Wire in kg that a batch draws: wire speed x arc time x mass per metre. Wire cut off at starts is not in it. */
export function batchWire(inputs: WireInputs): CalculationInParts<WireInputs, WireParts> {
  const { onFeederKg = null, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['wireDiameterMm', inputs.wireDiameterMm, bounds.wireDiameterMm],
    ['wireSpeedMMin', inputs.wireSpeedMMin, bounds.wireSpeedMMin],
    ['arcS', inputs.arcS, bounds.positiveS],
    ['quantity', inputs.quantity, bounds.count],
    ['onFeederKg', onFeederKg ?? 0, bounds.massKg],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  const metres = (inputs.wireSpeedMMin * inputs.arcS) / secondsPerMinute;
  const perPartG = metres * wireGramsPerMetre(inputs.wireDiameterMm, densityKgM3);
  const stockG = onFeederKg === null ? null : onFeederKg * gramsPerKilogram;
  return {
    ...calculated({
      value: (perPartG * inputs.quantity) / gramsPerKilogram,
      unit: 'kg',
      inputs: { ...inputs, onFeederKg, densityKgM3 },
      sources: ['massBalance', 'geometry'],
    }),
    parts: { perPartG, partsPossible: stockG === null ? null : wholeParts(stockG, perPartG) },
  };
}

interface SpoolInputs {
  onFeederKg: number;
  /** What draws on the spool, in the order of work. */
  batches: readonly { readonly perPartG: number; readonly quantity: number }[];
}

interface SpoolParts {
  /** Parts that the spool is good for, counted on through the batches. */
  goodFor: number;
  /** The part that the spool does not reach: in which batch, which of its parts; null where it reaches all. */
  changeAt: { readonly batch: number; readonly part: number } | null;
}

/** Wire in kg that batches draw one after the other, and the part at which the spool must be changed. */
export function spoolForecast(inputs: SpoolInputs): CalculationInParts<SpoolInputs, SpoolParts> {
  const refusal = firstRefusal([
    ['onFeederKg', inputs.onFeederKg, bounds.massKg],
    ...inputs.batches.flatMap(
      ({ perPartG, quantity }) =>
        [
          ['perPartG', perPartG, bounds.partMassG],
          ['quantity', quantity, bounds.count],
        ] as const,
    ),
  ]);
  if (refusal) return refused(refusal);
  let leftG = inputs.onFeederKg * gramsPerKilogram;
  let [neededG, goodFor] = [0, 0];
  let changeAt: SpoolParts['changeAt'] = null;
  for (const [batch, { perPartG, quantity }] of inputs.batches.entries()) {
    neededG += perPartG * quantity;
    if (changeAt !== null) continue;
    const parts = Math.min(quantity, wholeParts(leftG, perPartG));
    goodFor += parts;
    leftG = Math.max(0, leftG - parts * perPartG);
    if (parts < quantity) changeAt = { batch, part: parts + 1 };
  }
  return {
    ...calculated({
      value: neededG / gramsPerKilogram,
      unit: 'kg',
      inputs,
      sources: ['massBalance'],
    }),
    parts: { goodFor, changeAt },
  };
}

interface GasInputs {
  gasFlowLMin: number;
  /** Arc time of one part. */
  arcS: number;
  weldCount: number;
  /** Gas before and after the arc, per weld. */
  prePostS: number;
  quantity: number;
  /** Gas bought over gas calculated, measured at the cell; 1 where it has not been. */
  lossFactor?: number | undefined;
  /** What is left in the cylinder; null where nobody knows. */
  availableL?: number | null | undefined;
}

interface GasParts {
  perPartL: number;
  /** Whole parts that the cylinder is good for; null where its rest is not known. */
  partsPossible: number | null;
}

/** Shielding gas in l of a batch: flow x (arc + gas before and after each weld) x the cell's loss factor. */
export function batchGas(inputs: GasInputs): CalculationInParts<GasInputs, GasParts> {
  const { lossFactor = 1, availableL = null } = inputs;
  const refusal = firstRefusal([
    ['gasFlowLMin', inputs.gasFlowLMin, bounds.gasFlowLMin],
    ['arcS', inputs.arcS, bounds.positiveS],
    ['weldCount', inputs.weldCount, bounds.count],
    ['prePostS', inputs.prePostS, bounds.durationS],
    ['quantity', inputs.quantity, bounds.count],
    ['lossFactor', lossFactor, bounds.lossFactor],
    ['availableL', availableL ?? 0, bounds.volumeL],
  ]);
  if (refusal) return refused(refusal);
  const flowS = inputs.arcS + inputs.weldCount * inputs.prePostS;
  const perPartL = (inputs.gasFlowLMin * flowS * lossFactor) / secondsPerMinute;
  return {
    ...calculated({
      value: perPartL * inputs.quantity,
      unit: 'l',
      inputs: { ...inputs, lossFactor, availableL },
      sources: ['timeSum'],
    }),
    parts: {
      perPartL,
      partsPossible: availableL === null ? null : wholeParts(availableL, perPartL),
    },
  };
}
