import { bounds, firstRefusal, minutesPerHour } from '../quantities.js';
import { calculated, refused, type CalculationInParts } from '../result.js';
import { moneyBounds, moneyRefusal } from './money.js';

interface DepositCostInputs {
  /** Labour with its overhead. */
  ratePerH: number;
  /** While the arc is on. */
  depositionKgH: number;
  /** Arc time over the welder's whole time, as a share of 1. */
  operatorFactor: number;
  wirePricePerKg: number;
  /** Metal laid over wire bought. */
  efficiency: number;
  gasFlowLMin: number;
  gasPricePerL: number;
  currency: string;
}

interface DepositCostParts {
  labour: number;
  wire: number;
  gas: number;
}

/**
 * Cost of one kg of weld metal: rate / (deposition x operator factor) + wire price / efficiency + gas flow x 60 x
 * price / deposition. Electricity is left out, it is mostly below 1 %. The parts sum to the value.
 */
export function depositCost(
  inputs: DepositCostInputs,
): CalculationInParts<DepositCostInputs, DepositCostParts> {
  const { depositionKgH, operatorFactor, efficiency, currency } = inputs;
  const refusal = moneyRefusal(currency, [
    ['ratePerH', inputs.ratePerH, moneyBounds.ratePerH],
    ['depositionKgH', depositionKgH, bounds.depositionKgH],
    ['operatorFactor', operatorFactor, bounds.share],
    ['wirePricePerKg', inputs.wirePricePerKg, moneyBounds.price],
    ['efficiency', efficiency, bounds.share],
    ['gasFlowLMin', inputs.gasFlowLMin, { min: 0, max: 500, unit: 'l/min' }],
    ['gasPricePerL', inputs.gasPricePerL, moneyBounds.price],
  ]);
  if (refusal) return refused(refusal);
  const parts = {
    labour: inputs.ratePerH / (depositionKgH * operatorFactor),
    wire: inputs.wirePricePerKg / efficiency,
    gas: (inputs.gasFlowLMin * minutesPerHour * inputs.gasPricePerL) / depositionKgH,
  };
  return {
    ...calculated({
      value: parts.labour + parts.wire + parts.gas,
      unit: `${currency}/kg`,
      inputs,
      sources: ['depositCost'],
    }),
    parts,
  };
}

interface PayBackInputs {
  outlay: number;
  savingPerKg: number;
  depositionKgH: number;
  operatorFactor: number;
}

/**
 * Hours of a welder's whole time in which a saving per kg of weld metal pays back an outlay; `parts.massKg` is the
 * weld metal until then. The saving is the difference of two deposit costs.
 */
export function payBack(
  inputs: PayBackInputs,
): CalculationInParts<PayBackInputs, { massKg: number }> {
  const { outlay, savingPerKg, depositionKgH, operatorFactor } = inputs;
  const refusal = firstRefusal([
    ['outlay', outlay, moneyBounds.amount],
    ['savingPerKg', savingPerKg, { min: 0.0001, max: 1_000_000, unit: 'per kg' }],
    ['depositionKgH', depositionKgH, bounds.depositionKgH],
    ['operatorFactor', operatorFactor, bounds.share],
  ]);
  if (refusal) return refused(refusal);
  const massKg = outlay / savingPerKg;
  return {
    ...calculated({
      value: massKg / (depositionKgH * operatorFactor),
      unit: 'h',
      inputs,
      sources: ['depositCost'],
    }),
    parts: { massKg },
  };
}
