import type { WpsRanges } from '@tackboard/contract';

/** The variables that are typed as a range, with the word a person reads and the unit. */
export const rangeVariables = {
  yieldMPa: { word: 'yield strength', unit: 'MPa' },
  thicknessMm: { word: 'thickness', unit: 'mm' },
  throatMm: { word: 'throat', unit: 'mm' },
  wireDiameterMm: { word: 'wire diameter', unit: 'mm' },
  currentA: { word: 'current', unit: 'A' },
  voltageV: { word: 'voltage', unit: 'V' },
  wireSpeedMMin: { word: 'wire speed', unit: 'm/min' },
  travelMmMin: { word: 'travel speed', unit: 'mm/min' },
  heatInputKjMm: { word: 'heat input', unit: 'kJ/mm' },
} as const satisfies Partial<Record<keyof WpsRanges, { word: string; unit: string }>>;
export type RangeVariable = keyof typeof rangeVariables;

export const listVariables = {
  mechanisations: 'mechanisation',
  materialGroups: 'material groups',
  jointTypes: 'joint types',
  positions: 'positions',
  fillers: 'fillers',
  gases: 'gases',
} as const satisfies Partial<Record<keyof WpsRanges, string>>;

export interface Limits {
  readonly min: number | null;
  readonly max: number | null;
}

export const nothingStated = 'nothing stated';

export function rangeWords(range: Limits | null, unit: string): string {
  if (range === null || (range.min === null && range.max === null)) return nothingStated;
  if (range.min === null) return `up to ${range.max} ${unit}`;
  if (range.max === null) return `${range.min} ${unit} and more`;
  return `${range.min} to ${range.max} ${unit}`;
}

export function listWords(list: readonly string[]): string {
  return list.length === 0 ? nothingStated : list.join(', ');
}

export function isStated(range: Limits | null): range is Limits {
  return range !== null && (range.min !== null || range.max !== null);
}

/** Designations are compared without case and spacing. */
export function plainWord(word: string): string {
  return word.trim().replace(/\s+/g, ' ').toUpperCase();
}

export function holdsWord(listed: readonly string[], word: string): boolean {
  return listed.map(plainWord).includes(plainWord(word));
}
