import type { SourceId } from './sources/index.js';

/** Something the reader of a figure must know before relying on it. */
export type WarningCode =
  | 'efficiencyUnusual'
  | 'meanPowerOfPulsedArc'
  | 'ruleOfThumb'
  | 'arcSpreadEvenly'
  | 'idealGas'
  | 'arcAboveRunning';

export interface Warning {
  code: WarningCode;
  given: number | null;
}

/** Why no figure is given: the argument by name, the value as it came, and what is allowed in words. */
export type ArgumentRefusal = { argument: string; given: unknown; allowed: string };

export type Refused = { ok: false; refusal: ArgumentRefusal };

type Calculated<I extends object> = {
  ok: true;
  value: number;
  unit: string;
  inputs: I;
  sources: readonly SourceId[];
  warnings: readonly Warning[];
};

/** A finite figure with its unit, inputs and sources, or a typed refusal. Never NaN. */
export type Calculation<I extends object> = Calculated<I> | Refused;

/** A calculation that also shows the figures it was made from, units in their names. */
export type CalculationInParts<I extends object, P extends object> =
  (Calculated<I> & { parts: P }) | Refused;

export function refused(refusal: ArgumentRefusal): Refused {
  return { ok: false, refusal };
}

export function calculated<I extends object>(
  result: Omit<Calculated<I>, 'ok' | 'warnings'> & { warnings?: readonly Warning[] },
): Calculated<I> {
  return { ok: true, warnings: [], ...result };
}
