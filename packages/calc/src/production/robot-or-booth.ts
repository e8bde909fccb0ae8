import { bounds, firstRefusal, minutesPerHour } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';
import { moneyBounds, moneyRefusal } from './money.js';

interface ReturnsInputs {
  /** Chance that the part comes back at all, as a share of 1. */
  chanceOfReturn: number;
  /** Further batches that come where it does, within the time looked ahead. */
  usualRepeats: number;
}

/**
 * Batches over which program and fixture are spread, this one included: 1 + chance x usual repeats. 1 where nobody
 * knows whether the part comes back.
 */
export function expectedBatches(inputs: ReturnsInputs): Calculation<ReturnsInputs> {
  const refusal = firstRefusal([
    ['chanceOfReturn', inputs.chanceOfReturn, { min: 0, max: 1, unit: '' }],
    ['usualRepeats', inputs.usualRepeats, { min: 0, max: 1_000, unit: 'batches' }],
  ]);
  if (refusal) return refused(refusal);
  const value = 1 + inputs.chanceOfReturn * inputs.usualRepeats;
  return calculated({ value, unit: 'batches', inputs, sources: ['breakEven'] });
}

interface ChoiceInputs {
  quantity: number;
  robotFixedMin: number;
  boothFixedMin: number;
  robotUnitMin: number;
  boothUnitMin: number;
  /** 0 where the program is proven. */
  programmingMin: number;
  /** 0 where the fixture is there. */
  fixtureCost: number;
  /** This batch included. */
  expectedBatches: number;
  /** Cell and person together. */
  robotRatePerH: number;
  boothRatePerH: number;
  programmingRatePerH: number;
  currency: string;
}

interface ChoiceParts {
  robotCost: number;
  boothCost: number;
  robotMin: number;
  boothMin: number;
  /** Programming and fixture that this batch carries. */
  preparationCost: number;
  cheaper: 'robot' | 'booth' | 'same';
  /** Parts from which the robot costs no more, rounded up; null where it saves nothing per part. */
  breakEvenParts: number | null;
  /** The same before rounding. */
  exactParts: number | null;
}

function refusalOf(inputs: ChoiceInputs) {
  return moneyRefusal(inputs.currency, [
    ['quantity', inputs.quantity, bounds.count],
    ['robotFixedMin', inputs.robotFixedMin, bounds.durationMin],
    ['boothFixedMin', inputs.boothFixedMin, bounds.durationMin],
    ['robotUnitMin', inputs.robotUnitMin, bounds.positiveMin],
    ['boothUnitMin', inputs.boothUnitMin, bounds.positiveMin],
    ['programmingMin', inputs.programmingMin, bounds.durationMin],
    ['fixtureCost', inputs.fixtureCost, moneyBounds.amount],
    ['expectedBatches', inputs.expectedBatches, bounds.batches],
    ['robotRatePerH', inputs.robotRatePerH, moneyBounds.ratePerH],
    ['boothRatePerH', inputs.boothRatePerH, moneyBounds.ratePerH],
    ['programmingRatePerH', inputs.programmingRatePerH, moneyBounds.ratePerH],
  ]);
}

/**
 * What the robot saves on a batch against the booth (negative where it costs more), programming and fixture spread
 * over the batches that are expected. The parts show both costs, both times and the break-even quantity by cost.
 */
export function robotOrBooth(inputs: ChoiceInputs): CalculationInParts<ChoiceInputs, ChoiceParts> {
  const refusal = refusalOf(inputs);
  if (refusal) return refused(refusal);
  const { quantity } = inputs;
  const robot = wayOf(inputs.robotFixedMin, inputs.robotUnitMin, inputs.robotRatePerH);
  const booth = wayOf(inputs.boothFixedMin, inputs.boothUnitMin, inputs.boothRatePerH);
  const programmingMin = inputs.programmingMin / inputs.expectedBatches;
  const preparationCost =
    (programmingMin * inputs.programmingRatePerH) / minutesPerHour +
    inputs.fixtureCost / inputs.expectedBatches;
  const robotCost = robot.fixedCost + quantity * robot.unitCost + preparationCost;
  const boothCost = booth.fixedCost + quantity * booth.unitCost;
  const extraFixed = robot.fixedCost + preparationCost - booth.fixedCost;
  const exactParts = breakEvenQuantity(extraFixed, booth.unitCost - robot.unitCost);
  return {
    ...calculated({
      value: boothCost - robotCost,
      unit: `${inputs.currency}/batch`,
      inputs,
      sources: ['breakEven'],
    }),
    parts: {
      robotCost,
      boothCost,
      robotMin: inputs.robotFixedMin + quantity * inputs.robotUnitMin + programmingMin,
      boothMin: inputs.boothFixedMin + quantity * inputs.boothUnitMin,
      preparationCost,
      cheaper: cheaperOf(robotCost, boothCost),
      exactParts,
      breakEvenParts: exactParts === null ? null : Math.max(0, Math.ceil(exactParts - 1e-9)),
    },
  };
}

function wayOf(fixedMin: number, unitMin: number, ratePerH: number) {
  const perMin = ratePerH / minutesPerHour;
  return { fixedCost: fixedMin * perMin, unitCost: unitMin * perMin };
}

function breakEvenQuantity(extraFixed: number, savingPerPart: number): number | null {
  return savingPerPart > 0 ? Math.max(0, extraFixed / savingPerPart) : null;
}

function cheaperOf(robotCost: number, boothCost: number) {
  if (robotCost === boothCost) return 'same';
  return robotCost < boothCost ? 'robot' : 'booth';
}
