import { converted, entryKinds, entryText, type EntryKind, type UnitName } from '@tackboard/calc';
import { number, plainNumber } from './number.js';

/** Which units screens show and read; what is sent and stored is metric whatever it is. */
export type UnitSystem = 'metric' | 'us';

/** The units that values are stored in, as the screens write them, and what they measure. */
const kinds: Readonly<Record<string, EntryKind>> = {
  mm: 'length',
  'mm/min': 'travel',
  'm/min': 'wireSpeed',
  kg: 'mass',
  'kg/h': 'deposition',
  'l/min': 'gasFlow',
  'kJ/mm': 'heatInput',
  '°C': 'temperature',
  degC: 'temperature',
};

const signs: Partial<Record<UnitName, string>> = { C: '°C', F: '°F' };
/** Enough that a limit and a value beside it can be told apart. */
const decimals: Partial<Record<UnitName, number>> = {
  in: 3,
  'in/min': 1,
  'kJ/in': 2,
  F: 0,
  cfh: 1,
};
const usualDecimals = 3;
const travelDials = ['mm/min', 'cm/min', 'in/min'] as const;

export interface Field {
  readonly kind: EntryKind;
  readonly stored: UnitName;
  /** The unit that stands behind the field. */
  readonly unit: UnitName;
}

/**
 * How a value stored in `stored` is shown and read; null where it has no other unit (A, V, pieces). A `dial`
 * says in which unit travel is set at the machine at hand, whatever the rest of the shop uses.
 */
export function fieldOf(stored: string, system: UnitSystem, dial?: string): Field | null {
  const kind = kinds[stored];
  if (kind === undefined) return null;
  const units = entryKinds[kind];
  const dialled = kind === 'travel' ? travelDials.find((unit) => unit === dial) : undefined;
  return {
    kind,
    stored: units.stored,
    unit: dialled ?? (system === 'us' ? units.us : units.stored),
  };
}

export function signOf(unit: string): string {
  return signs[unit as UnitName] ?? unit;
}

/** The sign of the unit in which a value stored in `stored` is shown. */
export function unitShown(stored: string, system: UnitSystem, dial?: string): string {
  return signOf(fieldOf(stored, system, dial)?.unit ?? stored);
}

/** The value in the unit in which it is shown, unrounded. */
export function valueShown(value: number, stored: string, system: UnitSystem, dial?: string) {
  const field = fieldOf(stored, system, dial);
  return field === null ? value : converted(value, field.stored, field.unit);
}

/** A difference, such as a margin: a step of temperature has no zero to shift. */
export function stepShown(value: number, stored: string, system: UnitSystem, dial?: string) {
  return valueShown(value, stored, system, dial) - valueShown(0, stored, system, dial);
}

export interface NumberShape {
  /** The unit in which travel is set at the machine at hand. */
  readonly dial?: string | undefined;
  /** The most decimals in the stored unit; the other units have their own. */
  readonly decimals?: number;
  /** Trailing noughts are kept, so that figures in a row line up. */
  readonly fixed?: boolean;
}

/** "0.236" for 6 stored in mm: the number as it is read on screens, without its unit. */
export function numberShown(
  value: number,
  stored: string,
  system: UnitSystem,
  { dial, decimals: most = usualDecimals, fixed = false }: NumberShape = {},
): string {
  const unit = fieldOf(stored, system, dial)?.unit;
  const shown = valueShown(value, stored, system, dial);
  const own = unit === undefined ? undefined : decimals[unit];
  return fixed && own === undefined ? number(shown, most) : plainNumber(shown, own ?? most);
}

/** The text that a field begins with. */
export function fieldText(value: number, { kind, unit }: Field): string {
  return entryText({ value, kind, unit });
}

/** The same amount in the other units that people use for it: ["52 cm/min", "20.5 in/min"]. */
export function echoesOf(value: number, { kind, stored, unit }: Field): string[] {
  const { metric, us } = entryKinds[kind];
  const others = kind === 'travel' ? travelDials : [unit === us ? metric : us];
  return others
    .filter((other) => other !== unit)
    .map((other) => {
      const amount = converted(value, stored, other);
      return `${plainNumber(amount, decimals[other] ?? (Math.abs(amount) < 10 ? 2 : 1))} ${signOf(other)}`;
    });
}
