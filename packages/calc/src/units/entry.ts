import { calculated, refused, type CalculationInParts } from '../result.js';
import { convertUnit } from './convert.js';
import { readDecimal } from './number-text.js';
import { converted, isUnit, unitsLike, type UnitName } from './units.js';

/** What a field holds: the unit it is stored in, and the one that the other system of units shows. */
export const entryKinds = {
  length: { stored: 'mm', metric: 'mm', us: 'in' },
  travel: { stored: 'mm/min', metric: 'cm/min', us: 'in/min' },
  wireSpeed: { stored: 'm/min', metric: 'm/min', us: 'in/min' },
  mass: { stored: 'kg', metric: 'kg', us: 'lb' },
  deposition: { stored: 'kg/h', metric: 'kg/h', us: 'lb/h' },
  gasFlow: { stored: 'l/min', metric: 'l/min', us: 'cfh' },
  heatInput: { stored: 'kJ/mm', metric: 'kJ/mm', us: 'kJ/in' },
  temperature: { stored: 'C', metric: 'C', us: 'F' },
  pressure: { stored: 'bar', metric: 'bar', us: 'psi' },
} as const satisfies Record<string, { stored: UnitName; metric: UnitName; us: UnitName }>;

export type EntryKind = keyof typeof entryKinds;

/** Other ways in which people write a unit. */
const spellings: Readonly<Record<string, UnitName>> = {
  ipm: 'in/min',
  '"': 'in',
  'ft3/h': 'cfh',
  '°c': 'C',
  '°f': 'F',
  lbs: 'lb',
};

interface EntryInputs {
  text: string;
  kind: EntryKind;
  /** Unit of the field, where none is typed behind the number. */
  unit: UnitName;
}

export interface EntryParts {
  typedValue: number;
  typedUnit: UnitName;
  /** The same amount in the other system of units, to be read beside the field. */
  echoValue: number;
  echoUnit: UnitName;
}

const numberThenUnit = /^([+\-\u2212]?[\d.,\u0020\u00a0\u2009\u202f]*\d[.,]?)\s*(.*)$/u;

function unitNamed(written: string, like: readonly UnitName[]): UnitName | null {
  const spelled = spellings[written.toLowerCase()];
  const exact = spelled ?? like.find((name) => name.toLowerCase() === written.toLowerCase());
  return exact !== undefined && like.includes(exact) ? exact : null;
}

/**
 * Reads what was typed into a field of one kind, in the field's unit or in one typed behind the number, and
 * gives the value in the stored unit. `parts` has the value as typed and its echo in the other system. Nothing
 * is rounded or corrected. Refuses text that is no number, and a unit of another dimension.
 */
export function readEntry(inputs: EntryInputs): CalculationInParts<EntryInputs, EntryParts> {
  const { text, kind, unit } = inputs;
  if (!Object.hasOwn(entryKinds, kind)) {
    const allowed = `one of ${Object.keys(entryKinds).join(', ')}`;
    return refused({ argument: 'kind', given: kind, allowed });
  }
  const { stored, metric, us } = entryKinds[kind];
  const like = unitsLike(stored);
  if (!isUnit(unit) || !like.includes(unit)) {
    return refused({ argument: 'unit', given: unit, allowed: `one of ${like.join(', ')}` });
  }
  const allowed = `a number, alone or with one of ${like.join(', ')}`;
  const [, digits, written = ''] = numberThenUnit.exec(String(text).trim()) ?? [];
  const typedValue = digits === undefined ? null : readDecimal(digits);
  const typedUnit = written === '' ? unit : unitNamed(written, like);
  if (typedValue === null || typedUnit === null) {
    return refused({ argument: 'text', given: text, allowed });
  }
  const storedValue = convertUnit({ value: typedValue, from: typedUnit, to: stored });
  if (!storedValue.ok) return storedValue;
  const echoUnit = typedUnit === us ? metric : us;
  return {
    ...calculated({ value: storedValue.value, unit: stored, inputs, sources: ['exactUnits'] }),
    parts: {
      ...{ typedValue, typedUnit, echoUnit },
      echoValue: converted(typedValue, typedUnit, echoUnit),
    },
  };
}

/** Digits beyond which a text was not typed in this unit; one that carries more was typed in another. */
const mostTyped = 12;
const shownDigits = 6;

function plainText(value: number, digits: number): string {
  // Texts of a field are read back by people: never with an exponent.
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value) || 1)));
  const text = Number(value.toPrecision(digits)).toFixed(Math.min(decimals, 20));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * What a field of `unit` shows for a stored value: the shortest text that `readEntry` turns into exactly that
 * value, so that what was typed in this unit comes back as it was typed. A value that was typed in another unit
 * has no short text; it is shown to six digits, and stays stored as it is until something is typed over it.
 */
export function entryText({
  value,
  kind,
  unit,
}: {
  value: number;
  kind: EntryKind;
  unit: UnitName;
}): string {
  const { stored } = entryKinds[kind];
  const shown = converted(value, stored, unit);
  for (let digits = 1; digits <= mostTyped; digits += 1) {
    const text = plainText(shown, digits);
    const typed = readDecimal(text);
    if (typed !== null && converted(typed, unit, stored) === value) return text;
  }
  return plainText(shown, shownDigits);
}
