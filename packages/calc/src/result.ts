import type { SourceId } from './sources/index.js';

/** Something the reader of a figure must know before relying on it. */
export type WarningCode =
  | 'efficiencyUnusual'
  | 'meanPowerOfPulsedArc'
  | 'ruleOfThumb'
  | 'arcSpreadEvenly'
  | 'idealGas'
  | 'arcAboveRunning'
  | 'capNotFlat'
  | 'gapFirstEstimate'
  | 'depositionUnusual'
  | 'suggestionOnly'
  | 'limitFromMemory'
  | 'lossBelowOne'
  /** The governing code, the approved WPS and the responsible welding coordinator decide, not this figure. */
  | 'coordinatorDecides'
  /** The method asks for no preheat; dryness, a cold plate and restraint still count. */
  | 'noPreheatByMethod'
  /** Plate below 0 degC is to be warmed to 20 degC first. */
  | 'warmColdPlate'
  /** Measured values scatter about the method by the given share in %. */
  | 'methodScatters'
  /** The given number of elements that bound the range of the method is not known. */
  | 'elementsUnchecked'
  /** At the given carbon content the trade mostly goes by another carbon equivalent. */
  | 'otherEquivalentUsual'
  /** The weld is to be laid in a single run. */
  | 'singleRunOnly'
  /** Too few past runs, the given number, for a band. */
  | 'tooFewRuns';

export interface Warning {
  code: WarningCode;
  given: number | null;
}

/** What an argument may be: finite and within inclusive bounds, whole where counted. */
export interface Bound {
  min: number;
  max: number;
  unit: string;
  whole?: true;
}

/** Why no figure is given: the argument by name, the value as it came, and what is allowed in words. */
export type ArgumentRefusal = {
  argument: string;
  given: unknown;
  allowed: string;
  /** The value is possible, but the named method was not made for it and is not stretched to it. */
  outsideMethod?: SourceId;
};

export type Refused = { ok: false; refusal: ArgumentRefusal };

type Calculated<I extends object> = {
  ok: true;
  value: number;
  unit: string;
  inputs: I;
  sources: readonly SourceId[];
  warnings: readonly Warning[];
  /** The ranges that the method was made for, by argument; absent where it holds for whatever is possible. */
  validity?: Readonly<Record<string, Bound>>;
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
