import { firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';
import { converted, isUnit, units, unitsLike, type UnitName } from './units.js';

const absoluteZeroC = -273.15;
const widest = 1e15;

interface ConvertInputs {
  value: number;
  from: UnitName;
  to: UnitName;
}

/** The lowest value that a unit can carry: nothing is colder than absolute zero. */
function leastOf(unit: UnitName): number {
  return units[unit].dimension === 'temperature' ? converted(absoluteZeroC, 'C', unit) : -widest;
}

/**
 * A value in another unit of the same dimension, by exact factors and unrounded. Refuses an unknown unit and a
 * pair that measures different things. Source: international yard and pound of 1959; ISO 80000.
 */
export function convertUnit(inputs: ConvertInputs): Calculation<ConvertInputs> {
  const { value, from, to } = inputs;
  if (!isUnit(from)) return unknownUnit('from', from);
  const like = unitsLike(from);
  if (!isUnit(to) || !like.includes(to)) {
    return refused({ argument: 'to', given: to, allowed: `one of ${like.join(', ')}` });
  }
  const refusal = firstRefusal([['value', value, { min: leastOf(from), max: widest, unit: from }]]);
  if (refusal) return refused(refusal);
  return calculated({
    value: converted(value, from, to),
    unit: to,
    inputs,
    sources: ['exactUnits'],
  });
}

function unknownUnit(argument: string, given: unknown) {
  return refused({ argument, given, allowed: `one of ${Object.keys(units).join(', ')}` });
}
