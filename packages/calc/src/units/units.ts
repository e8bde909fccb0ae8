const mmPerInch = 25.4;
const mPerFoot = 0.3048;
const kgPerLb = 0.45359237;
const litresPerCubicFoot = (mPerFoot * 10) ** 3;
const minutesPerHour = 60;
const standardGravity = 9.80665;
const mmPerMetre = 1000;
/** One pound of force on a square inch, in bar. */
const barPerPsi = (kgPerLb * standardGravity) / (mmPerInch / mmPerMetre) ** 2 / 100_000;

interface Unit {
  dimension: string;
  /** Multiplies a value in this unit to one in the unit that the dimension is stored in. */
  factor: number;
  /** Added after that; only temperatures have one. */
  offset?: number;
}

/**
 * Exact by definition: inch 25.4 mm, foot 0.3048 m, pound 0.45359237 kg (international yard and pound, 1959);
 * degree Fahrenheit 5/9 K from 32. Within a dimension the unit of factor 1 is the one that values are stored in.
 */
export const units = {
  mm: { dimension: 'length', factor: 1 },
  cm: { dimension: 'length', factor: 10 },
  m: { dimension: 'length', factor: mmPerMetre },
  in: { dimension: 'length', factor: mmPerInch },
  ft: { dimension: 'length', factor: mPerFoot * mmPerMetre },
  'mm/min': { dimension: 'speed', factor: 1 },
  'cm/min': { dimension: 'speed', factor: 10 },
  'm/min': { dimension: 'speed', factor: mmPerMetre },
  'mm/s': { dimension: 'speed', factor: 60 },
  'in/min': { dimension: 'speed', factor: mmPerInch },
  kg: { dimension: 'mass', factor: 1 },
  g: { dimension: 'mass', factor: 0.001 },
  lb: { dimension: 'mass', factor: kgPerLb },
  'kg/m': { dimension: 'mass per length', factor: 1 },
  'g/m': { dimension: 'mass per length', factor: 0.001 },
  'lb/ft': { dimension: 'mass per length', factor: kgPerLb / mPerFoot },
  'kg/h': { dimension: 'mass rate', factor: 1 },
  'lb/h': { dimension: 'mass rate', factor: kgPerLb },
  l: { dimension: 'volume', factor: 1 },
  m3: { dimension: 'volume', factor: 1000 },
  ft3: { dimension: 'volume', factor: litresPerCubicFoot },
  'l/min': { dimension: 'flow', factor: 1 },
  cfh: { dimension: 'flow', factor: litresPerCubicFoot / minutesPerHour },
  'kJ/mm': { dimension: 'energy per length', factor: 1 },
  'kJ/cm': { dimension: 'energy per length', factor: 0.1 },
  'kJ/in': { dimension: 'energy per length', factor: 1 / mmPerInch },
  'J/mm': { dimension: 'energy per length', factor: 0.001 },
  'J/in': { dimension: 'energy per length', factor: 0.001 / mmPerInch },
  C: { dimension: 'temperature', factor: 1 },
  F: { dimension: 'temperature', factor: 5 / 9, offset: (-32 * 5) / 9 },
  bar: { dimension: 'pressure', factor: 1 },
  MPa: { dimension: 'pressure', factor: 10 },
  psi: { dimension: 'pressure', factor: barPerPsi },
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof units;

export function isUnit(name: unknown): name is UnitName {
  return typeof name === 'string' && Object.hasOwn(units, name);
}

/** The units that a value of this unit can be shown in. */
export function unitsLike(name: UnitName): UnitName[] {
  const all = Object.keys(units) as UnitName[];
  return all.filter((other) => units[other].dimension === units[name].dimension);
}

function offsetOf(unit: Unit): number {
  return unit.offset ?? 0;
}

/** A value in another unit of the same dimension, without any check. */
export function converted(value: number, from: UnitName, to: UnitName): number {
  if (from === to) return value;
  const [source, target]: [Unit, Unit] = [units[from], units[to]];
  const stored = value * source.factor + offsetOf(source);
  return (stored - offsetOf(target)) / target.factor;
}
