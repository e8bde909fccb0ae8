/** How much a shop has on file. */
export interface ShopSize {
  readonly years: number;
  readonly parts: number;
  readonly jobs: number;
  readonly runs: number;
  readonly events: number;
  /** Half of them booths, half robots. */
  readonly cells: number;
  /** Steps that wait in the run queues today. */
  readonly waiting: number;
}

export const threeYears: ShopSize = {
  years: 3,
  parts: 1_500,
  jobs: 9_000,
  runs: 60_000,
  events: 400_000,
  cells: 6,
  waiting: 300,
};

export const oneYear: ShopSize = {
  ...threeYears,
  years: 1,
  parts: threeYears.parts / 3,
  jobs: threeYears.jobs / 3,
  runs: threeYears.runs / 3,
  events: Math.round(threeYears.events / 3),
};

/** A large shop of this kind, for the order of work: what is on file counts less than what waits. */
export const eightCells: ShopSize = { ...oneYear, cells: 8, waiting: 400 };
