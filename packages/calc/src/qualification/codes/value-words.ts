import type { Band } from './rule.js';

/** Values of a list that are names inside the rules; designations, positions and letters speak for themselves. */
const words: Readonly<Record<string, string>> = {
  partlyMechanised: 'partly mechanised',
  fullyMechanised: 'fully mechanised',
  tButt: 'butt at a T',
  partialButt: 'butt of partial penetration',
  single: 'single run',
  multi: 'several runs',
  oneSide: 'one side without backing',
  oneSideBacked: 'one side on backing',
  bothSides: 'both sides without back gouging',
  bothSidesGouged: 'both sides with back gouging',
};

/** The values of a range rule as a person reads them, e.g. `partlyMechanised` as "partly mechanised". */
export function valueWords(values: readonly string[]): string {
  return values.map((value) => words[value] ?? value).join(', ');
}

/** Four decimals show why 0.951 is above 0.95; compared is always the unrounded value. */
export function limitShown(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}

/** A unit behind its number, with the space before it; nothing for a variable without one. */
export function unitTail(unit: string | null): string {
  return unit === null ? '' : ` ${unit === 'degC' ? '°C' : unit}`;
}

/** Limits as a person reads them: "3 to 24 mm", "up to 250 °C", "over 500 mm". */
export function bandWords({ min, max, minOpen }: Band, unit: string | null): string {
  const tail = unitTail(unit);
  if (min === null && max === null) return 'no limit';
  if (min === null) return `up to ${limitShown(max ?? 0)}${tail}`;
  const least = limitShown(min);
  if (max !== null) return `${least} to ${limitShown(max)}${tail}`;
  return minOpen ? `over ${least}${tail}` : `${least}${tail} and more`;
}
