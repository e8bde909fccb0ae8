/** What a cell is set up with for a step; null and '' stand for "none". */
export interface KeptSetUp {
  readonly wireItemId: string | null;
  readonly gasItemId: string | null;
  readonly torch: string;
  readonly fixtureId: string | null;
  readonly programId: string | null;
}

/**
 * Minutes that each kind of change takes. Starting values, from common practice and not from measurement: a shop
 * replaces them by its own.
 */
const changeMin = {
  wireItemId: 15,
  gasItemId: 5,
  torch: 10,
  fixtureId: 10,
  programId: 5,
} as const satisfies Record<keyof KeptSetUp, number>;
const kinds = Object.keys(changeMin) as (keyof KeptSetUp)[];

/** A step as its change-over at one cell depends on it. */
export interface SetUpNeed {
  /** Steps of the same kind need no change between them. */
  readonly stepId: string;
  /** Minutes to set the step up with nothing in place, as planned for the part. */
  readonly setUpMin: number;
  /** Null where no set-up is kept for this cell. */
  readonly kept: KeptSetUp | null;
}

/**
 * Minutes to change a cell over from one step to the next; `from` is null for a cell of which nothing is known.
 * Where either set-up is unknown it is the whole setting up of the next step, and it is never more than that.
 */
export function changeOverMin(from: SetUpNeed | null, to: SetUpNeed): number {
  if (from?.stepId === to.stepId) return 0;
  const { kept } = to;
  const before = from?.kept ?? null;
  if (before === null || kept === null) return to.setUpMin;
  let sum = 0;
  for (const kind of kinds) if (before[kind] !== kept[kind]) sum += changeMin[kind];
  return Math.min(sum, to.setUpMin);
}
