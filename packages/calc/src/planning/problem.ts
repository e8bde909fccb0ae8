/** A stretch of open time at a cell, in minutes of the plan's own clock. */
export interface OpenHours {
  fromMin: number;
  toMin: number;
}

/** A cell as the plan begins. Without `hours` it is open without a gap. */
export interface PlanCell {
  id: string;
  /** When the cell is free for the first step. */
  freeFromMin: number;
  /** Open stretches, in order and apart. After the last one the cell counts as open without a gap. */
  hours?: readonly OpenHours[];
}

/** A start that people were told. A later start, or another cell, costs once; an earlier start costs nothing. */
export interface AnnouncedStart {
  cell: string;
  startMin: number;
  cost: number;
}

export interface PlanStep {
  id: string;
  /** Whose order it is; the reasons of a proposal are summed by it. */
  customer: string;
  /** Cost of one minute late. */
  weight: number;
  dueMin: number;
  /** Neither set-up nor work begins before this minute. */
  releaseMin: number;
  /** Minutes of work per cell, in the order of the cells; null where the step cannot be done. */
  processingMin: readonly (number | null)[];
  /** Steps that must be finished before this one begins. */
  after?: readonly string[];
  /** Started work and pinned work keep their cell and their place in today's lane. */
  hold?: 'started' | 'pinned';
  announced?: AnnouncedStart;
}

/** Step ids per cell, in the order in which they run. */
export type LaneOrder = readonly (readonly string[])[];

/**
 * What is to be put in order. All times are minutes of one clock that the caller chooses; within a plan for the shop
 * they are whole. The cost of an order is the sum over the steps of weight x minutes late, and of announced starts
 * that are not kept.
 */
export interface PlanProblem {
  cells: readonly PlanCell[];
  steps: readonly PlanStep[];
  /** Set-up minutes per cell: row 0 from the state in which the cell is found, row i + 1 after step i. None is zero. */
  setupMin?: readonly (readonly (readonly number[])[])[];
  /** The lanes as they are now; needed when work is held and for a proposal. */
  today?: LaneOrder;
}
