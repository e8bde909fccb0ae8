import { getContext, setContext } from 'svelte';
import { readNumber, type NumberReading } from './number-text.js';

/** How a field shows and reads a value that is stored in one unit and typed in another. */
export interface FieldUnit {
  /** Stands behind the field. */
  readonly sign: string;
  /** Reads what was typed into the stored value; a unit may stand behind the number. */
  readonly read: (typed: string) => NumberReading;
  readonly text: (value: number) => string;
  /** The same amount in the other units, to be read beside the field. */
  readonly echo: (value: number) => string | undefined;
}

/** The unit of a field whose value is stored in `stored`, or which is set on a machine in `dial`. */
export type UnitOf = (stored: string, dial?: string) => FieldUnit;

const key = Symbol('ui units');

/** The root layout hands in how the shop measures. */
export function provideUiUnits(unitOf: UnitOf): void {
  setContext(key, unitOf);
}

/** Stored and typed in one unit: what a plain number is. */
export function plainUnit(stored: string): FieldUnit {
  return { sign: stored, read: readNumber, text: String, echo: () => undefined };
}

export function uiUnits(): UnitOf {
  return getContext<UnitOf | undefined>(key) ?? plainUnit;
}
