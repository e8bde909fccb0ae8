import { refused, type Refused } from '../result.js';
import { buildOrder } from './build.js';
import { checkLanes, checkWalk } from './check.js';
import { keepsHeld, newWalk, walkLanes } from './evaluate.js';
import { exactOrder, exactStepsMax } from './exact.js';
import { improveLanes, type Improver } from './improve-lanes.js';
import { improveShop } from './improve-shop.js';
import { layOut, type LaidOut } from './laid-out.js';
import { notesOf, type PlanNote } from './notes.js';
import type { LaneOrder, PlanProblem } from './problem.js';
import type { SourceId } from '../sources/index.js';
import type { ShouldStop } from './stop.js';
import { named, numbered, type NumberedLanes } from './tables.js';

/** A search for a cheaper order, to be carried on slice by slice so that a worker can listen in between. */
export interface OrderSearch {
  /** Cost of the best order so far: weight x minutes late, and announced starts not kept. */
  costSoFar: () => number;
  /** The best order so far, step ids per cell. */
  lanesSoFar: () => string[][];
  /** Works for a few milliseconds. */
  improve: () => void;
  /** True when the order is proven to be the best, or nothing may move: no further work can help. */
  isProven: () => boolean;
  notes: readonly PlanNote[];
}

function standing(lanes: NumberedLanes, cost: number): Improver {
  return { cost: () => cost, lanes: () => lanes, improve: () => {} };
}

/** The cheaper of the rule's order and today's; the rule's may not fit around held work. */
function startOf({ problem, tables }: LaidOut): { lanes: NumberedLanes; cost: number } {
  const built = buildOrder(tables);
  const walk = newWalk(tables);
  const cost = keepsHeld(tables, built) ? walkLanes(tables, built, walk) : Infinity;
  if (!problem.today) return { lanes: built, cost };
  const today = numbered(tables, problem.today);
  const todayCost = walkLanes(tables, today, walk);
  return todayCost <= cost ? { lanes: today, cost: todayCost } : { lanes: built, cost };
}

/**
 * Begins a search for the order with the least cost. Up to ten steps that wait for no others are solved exactly at
 * once. Integer minutes, seeded: the same problem, seed and number of slices give the same order. Refuses a problem
 * that cannot be planned, in words. Method: ATCS rule, then iterated local search (see the sources named planning).
 */
export function searchOrder({
  problem: asked,
  seed,
}: {
  problem: PlanProblem | LaidOut;
  seed: number;
}): { ok: true; search: OrderSearch } | Refused {
  const known = layOut(asked);
  if (!known.ok) return known;
  const { problem, tables } = known.laidOut;
  const stuck = problem.today && checkWalk(tables, problem.today, 'today');
  if (stuck) return refused(stuck);
  const start = startOf(known.laidOut);
  const notes = notesOf(problem);
  const fixed = problem.steps.every((step) => step.hold);
  const small = tables.steps <= exactStepsMax && tables.after.every((list) => list.length === 0);
  let improver: Improver;
  if (fixed) improver = standing(start.lanes, start.cost);
  else if (small) {
    const lanes = exactOrder(tables);
    const cost = walkLanes(tables, lanes, newWalk(tables));
    improver = cost < start.cost ? standing(lanes, cost) : standing(start.lanes, start.cost);
  } else if (tables.plain) improver = improveLanes(tables, start.lanes, seed);
  else improver = improveShop(tables, start.lanes, seed);
  return {
    ok: true,
    search: {
      costSoFar: improver.cost,
      lanesSoFar: () => named(tables, improver.lanes()),
      improve: improver.improve,
      isProven: () => fixed || small || improver.cost() === 0,
      notes,
    },
  };
}

export interface PlannedOrder {
  lanes: string[][];
  cost: number;
  proven: boolean;
  notes: readonly PlanNote[];
  sources: readonly SourceId[];
}

const planSources = [
  'weightedTardiness',
  'apparentTardiness',
  'iteratedLocalSearch',
  'linearOrderCrossOver',
  'lateAcceptance',
] as const satisfies readonly SourceId[];

/** Searches until `shouldStop` answers true or the order is proven best; asked before every slice. */
export function planOrder({
  problem,
  seed,
  shouldStop,
}: {
  problem: PlanProblem | LaidOut;
  seed: number;
  shouldStop: ShouldStop;
}): ({ ok: true } & PlannedOrder) | Refused {
  const begun = searchOrder({ problem, seed });
  if (!begun.ok) return begun;
  const { search } = begun;
  while (!search.isProven() && !shouldStop()) search.improve();
  return {
    ok: true,
    lanes: search.lanesSoFar(),
    cost: search.costSoFar(),
    proven: search.isProven(),
    notes: search.notes,
    sources: planSources,
  };
}

/** Start, finish and cost of one step in an order. */
export interface PlacedStep {
  id: string;
  cell: string;
  startMin: number;
  /** Change-over before the work; part of the time from start to finish. */
  setupMin: number;
  finishMin: number;
  lateMin: number;
  lateCost: number;
  /** Cost of an announced start that is not kept. */
  movedCost: number;
}

/** The exact cost of an order, whoever made it, with every step's times. */
export function evaluateOrder({
  problem: asked,
  lanes,
}: {
  problem: PlanProblem | LaidOut;
  lanes: LaneOrder;
}): { ok: true; cost: number; steps: PlacedStep[][]; sources: readonly SourceId[] } | Refused {
  const known = layOut(asked);
  if (!known.ok) return known;
  const { problem, tables } = known.laidOut;
  const wrong = checkLanes(problem, lanes, 'lanes') ?? checkWalk(tables, lanes, 'lanes');
  if (wrong) return refused(wrong);
  const order = numbered(tables, lanes);
  const walk = newWalk(tables);
  const cost = walkLanes(tables, order, walk);
  const steps = order.map((lane, cell) =>
    lane.map((step) => ({
      id: problem.steps[step - 1]!.id,
      cell: problem.cells[cell]!.id,
      startMin: walk.start[step]!,
      setupMin: walk.spanMin[step]! - tables.work[cell]![step]!,
      finishMin: walk.finish[step]!,
      lateMin: Math.max(walk.finish[step]! - tables.due[step]!, 0),
      lateCost: walk.lateCost[step]!,
      movedCost: walk.movedCost[step]!,
    })),
  );
  return { ok: true, cost, steps, sources: ['weightedTardiness'] };
}
