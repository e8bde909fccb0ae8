import { bounds, minutesPerHour } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';
import { moneyBounds, moneyRefusal } from './money.js';

interface PartCostInputs {
  /** Parts that the customer can have; not the parts made. */
  goodParts: number;
  /** Set-up with the first piece, paid as labour and as cell time. */
  setUpMin: number;
  /** This batch's share of program and fixture. */
  preparationShare: number;
  /** Of people, with the parts running. */
  labourMin: number;
  labourRatePerH: number;
  /** Of the cell, with the parts running. */
  cellMin: number;
  cellRatePerH: number;
  wireKg: number;
  wirePricePerKg: number;
  gasL: number;
  gasPricePerL: number;
  tips: number;
  tipPrice: number;
  /** Labour at reworked parts. */
  reworkMin: number;
  /** Wire, gas and cell time of rework, and parts that were thrown away. */
  reworkMaterial: number;
  currency: string;
}

/** Per good part, in the currency; they sum to the value. */
interface PartCostParts {
  labour: number;
  cell: number;
  wire: number;
  gas: number;
  tips: number;
  rework: number;
  setUp: number;
}

function refusalOf(inputs: PartCostInputs) {
  return moneyRefusal(inputs.currency, [
    ['goodParts', inputs.goodParts, bounds.count],
    ['setUpMin', inputs.setUpMin, bounds.durationMin],
    ['preparationShare', inputs.preparationShare, moneyBounds.amount],
    ['labourMin', inputs.labourMin, bounds.durationMin],
    ['labourRatePerH', inputs.labourRatePerH, moneyBounds.ratePerH],
    ['cellMin', inputs.cellMin, bounds.durationMin],
    ['cellRatePerH', inputs.cellRatePerH, moneyBounds.ratePerH],
    ['wireKg', inputs.wireKg, bounds.massKg],
    ['wirePricePerKg', inputs.wirePricePerKg, moneyBounds.price],
    ['gasL', inputs.gasL, bounds.volumeL],
    ['gasPricePerL', inputs.gasPricePerL, moneyBounds.price],
    ['tips', inputs.tips, { min: 0, max: 100_000, unit: 'tips' }],
    ['tipPrice', inputs.tipPrice, moneyBounds.price],
    ['reworkMin', inputs.reworkMin, bounds.durationMin],
    ['reworkMaterial', inputs.reworkMaterial, moneyBounds.amount],
  ]);
}

/**
 * Cost of one good part of a batch: labour, cell, wire, gas, tips, rework and set-up over the good parts, so that
 * scrap makes each good part dearer. `parts.batch` is the whole batch. Refuses a batch without a good part.
 */
export function costPerGoodPart(
  inputs: PartCostInputs,
): CalculationInParts<PartCostInputs, PartCostParts & { batch: number }> {
  const refusal = refusalOf(inputs);
  if (refusal) return refused(refusal);
  const batch = batchCosts(inputs);
  const total = Object.values(batch).reduce((sum, cost) => sum + cost, 0);
  const each = Object.fromEntries(
    Object.entries(batch).map(([what, cost]) => [what, cost / inputs.goodParts]),
  ) as unknown as PartCostParts;
  return {
    ...calculated({
      value: total / inputs.goodParts,
      unit: `${inputs.currency}/part`,
      inputs,
      sources: ['partCost'],
    }),
    parts: { ...each, batch: total },
  };
}

function batchCosts(inputs: PartCostInputs): PartCostParts {
  const labourPerMin = inputs.labourRatePerH / minutesPerHour;
  const cellPerMin = inputs.cellRatePerH / minutesPerHour;
  return {
    labour: inputs.labourMin * labourPerMin,
    cell: inputs.cellMin * cellPerMin,
    wire: inputs.wireKg * inputs.wirePricePerKg,
    gas: inputs.gasL * inputs.gasPricePerL,
    tips: inputs.tips * inputs.tipPrice,
    rework: inputs.reworkMin * labourPerMin + inputs.reworkMaterial,
    setUp: inputs.setUpMin * (labourPerMin + cellPerMin) + inputs.preparationShare,
  };
}
