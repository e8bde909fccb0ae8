/** The only three results of a check. A missing input or an unsure rule is `cannotSay`, never `inside`. */
export type FitResult = 'inside' | 'outside' | 'cannotSay';

/** What the drawing and the cell decide; the rest is dialled or measured. */
export type DrawingVariable =
  | 'process'
  | 'mechanisation'
  | 'materialGroup'
  | 'yield'
  | 'thickness'
  | 'jointType'
  | 'throat'
  | 'position';

export type FitVariable =
  | DrawingVariable
  | 'wireDiameter'
  | 'filler'
  | 'gas'
  | 'current'
  | 'voltage'
  | 'wireSpeed'
  | 'travel'
  | 'heatInput'
  | 'preheat'
  | 'interpass';

export type FitReason =
  | 'inRange'
  | 'belowMin'
  | 'aboveMax'
  | 'listed'
  | 'notListed'
  | 'subGroupMissing'
  | 'pairMissing'
  | 'valueMissing'
  | 'rangeMissing'
  | 'factorUnknown'
  | 'notDemanded'
  | 'tooCold'
  | 'tooHot';

export interface FitLine<V extends string = FitVariable, R extends string = FitReason> {
  variable: V;
  result: FitResult;
  given: number | string | null;
  unit: string | null;
  min: number | null;
  max: number | null;
  allowed: readonly string[] | null;
  /** Distance to the nearest limit in `unit`; negative when outside, null when no limit was compared. */
  margin: number | null;
  reason: R;
}

export interface FitAnswer {
  result: FitResult;
  lines: readonly FitLine[];
}

/** The worst of several results: outside, then cannot say, then inside. Nothing checked is `cannotSay`. */
export function worstResult(results: readonly FitResult[]): FitResult {
  if (results.includes('outside')) return 'outside';
  return results.length > 0 && results.every((result) => result === 'inside')
    ? 'inside'
    : 'cannotSay';
}

/** The lines with their worst result. */
export function answerOf(lines: readonly FitLine[]): FitAnswer {
  return { result: worstResult(lines.map((line) => line.result)), lines };
}
