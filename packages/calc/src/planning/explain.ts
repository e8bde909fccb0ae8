import { refused, type Refused } from '../result.js';
import { checkLanes, checkWalk } from './check.js';
import { newWalk, walkLanes, type Walk } from './evaluate.js';
import { layOut, type LaidOut } from './laid-out.js';
import type { LaneOrder, PlanProblem } from './problem.js';
import { stayingSteps } from './staying.js';
import { named, numbered, type NumberedLanes, type Tables } from './tables.js';

type WithToday = PlanProblem & { today: LaneOrder };

/** Why a move is worth making, or what it costs; `cost` is below zero where the move saves. */
export interface MoveReason {
  kind: 'lateness' | 'announcedStart';
  customer: string;
  cost: number;
  /** Change of the minutes late of this customer's steps; 0 for an announced start. */
  lateMin: number;
}

/** Steps that go to another place together, where each alone would hold others up. */
export interface ProposedMove {
  steps: { id: string; fromCell: string; toCell: string; afterStep: string | null }[];
  reasons: MoveReason[];
  /** Sum of the reasons. */
  cost: number;
  /** Change-over minutes that the move adds; below zero where it saves them. */
  setupMin: number;
}

export interface Proposal {
  todayCost: number;
  proposedCost: number;
  /** In the order in which they are made; their costs add up to the difference of the two costs. */
  moves: ProposedMove[];
}

interface Move {
  step: number;
  from: number;
  to: number;
  afterStep: number;
}

/** The moves that lead from one order to the other, lane by lane; steps that keep their order stay. */
function movesBetween(today: NumberedLanes, proposed: NumberedLanes): Move[] {
  const cellOf = new Map(today.flatMap((lane, cell) => lane.map((step) => [step, cell] as const)));
  return proposed.flatMap((lane, cell) => {
    const staying = stayingSteps(today[cell]!, lane);
    return lane.flatMap((step, at) =>
      staying.has(step)
        ? []
        : [{ step, from: cellOf.get(step)!, to: cell, afterStep: at === 0 ? 0 : lane[at - 1]! }],
    );
  });
}

function make(lanes: NumberedLanes, { step, from, to, afterStep }: Move): void {
  lanes[from]!.splice(lanes[from]!.indexOf(step), 1);
  lanes[to]!.splice(lanes[to]!.indexOf(afterStep) + 1, 0, step);
}

/** Change-over minutes of a walk: what its spans have above the work. */
function setupOf(tables: Tables, lanes: NumberedLanes, walk: Walk): number {
  let sum = 0;
  lanes.forEach((lane, cell) => {
    for (const step of lane) sum += walk.spanMin[step]! - tables.work[cell]![step]!;
  });
  return sum;
}

function reasonsOf(problem: PlanProblem, tables: Tables, before: Walk, now: Walk): MoveReason[] {
  const reasons = new Map<string, MoveReason>();
  const add = (kind: MoveReason['kind'], customer: string, cost: number, lateMin: number): void => {
    if (cost === 0 && lateMin === 0) return;
    const key = `${kind} ${customer}`;
    const reason = reasons.get(key) ?? { kind, customer, cost: 0, lateMin: 0 };
    reason.cost += cost;
    reason.lateMin += lateMin;
    reasons.set(key, reason);
  };
  problem.steps.forEach(({ customer }, at) => {
    const step = at + 1;
    const lateMin =
      Math.max(now.finish[step]! - tables.due[step]!, 0) -
      Math.max(before.finish[step]! - tables.due[step]!, 0);
    add('lateness', customer, now.lateCost[step]! - before.lateCost[step]!, lateMin);
    add('announcedStart', customer, now.movedCost[step]! - before.movedCost[step]!, 0);
  });
  return [...reasons.values()]
    .filter((reason) => reason.cost !== 0 || reason.lateMin !== 0)
    .sort((left, right) => left.cost - right.cost);
}

function shown(problem: PlanProblem, { step, from, to, afterStep }: Move) {
  return {
    id: problem.steps[step - 1]!.id,
    fromCell: problem.cells[from]!.id,
    toCell: problem.cells[to]!.id,
    afterStep: afterStep === 0 ? null : problem.steps[afterStep - 1]!.id,
  };
}

/**
 * A proposed order as a list of moves from today's lanes, each with its reasons. The moves are made one after the
 * other and each one's effect is what it changes at its turn, so that the effects add up to the whole difference.
 */
export function explainOrder({
  problem: asked,
  proposed,
}: {
  problem: WithToday | LaidOut<WithToday>;
  proposed: LaneOrder;
}): ({ ok: true } & Proposal) | Refused {
  const known = layOut(asked);
  if (!known.ok) return known;
  const { problem, tables } = known.laidOut;
  const wrong =
    checkLanes(problem, proposed, 'proposed') ??
    checkWalk(tables, problem.today, 'today') ??
    checkWalk(tables, proposed, 'proposed');
  if (wrong) return refused(wrong);
  const lanes = numbered(tables, problem.today);
  let before = newWalk(tables);
  let now = newWalk(tables);
  const todayCost = walkLanes(tables, lanes, before);
  let setupBefore = setupOf(tables, lanes, before);
  const moves: ProposedMove[] = [];
  let together: Move[] = [];
  for (const move of movesBetween(lanes, numbered(tables, proposed))) {
    make(lanes, move);
    together.push(move);
    if (walkLanes(tables, lanes, now) === Infinity) continue;
    const setupNow = setupOf(tables, lanes, now);
    const reasons = reasonsOf(problem, tables, before, now);
    moves.push({
      steps: together.map((made) => shown(problem, made)),
      reasons,
      cost: reasons.reduce((sum, reason) => sum + reason.cost, 0),
      setupMin: setupNow - setupBefore,
    });
    together = [];
    setupBefore = setupNow;
    [before, now] = [now, before];
  }
  return { ok: true, todayCost, proposedCost: before.cost, moves };
}

/**
 * Today's lanes with only the accepted moves made, in the proposal's order. A step goes behind the nearest step that
 * precedes it in the proposed lane and stands in that cell by then. Refuses when the rest would hold each other up.
 */
export function acceptMoves({
  problem: asked,
  proposed,
  accepted,
}: {
  problem: WithToday | LaidOut<WithToday>;
  proposed: LaneOrder;
  /** Ids of the steps whose moves are accepted. */
  accepted: readonly string[];
}): { ok: true; lanes: string[][] } | Refused {
  const known = layOut(asked);
  if (!known.ok) return known;
  const { problem, tables } = known.laidOut;
  const wrong = checkLanes(problem, proposed, 'proposed');
  if (wrong) return refused(wrong);
  const lanes = numbered(tables, problem.today);
  const target = numbered(tables, proposed);
  const wanted = new Set(accepted);
  for (const move of movesBetween(lanes, target)) {
    if (!wanted.has(problem.steps[move.step - 1]!.id)) continue;
    const earlier = target[move.to]!.slice(0, target[move.to]!.indexOf(move.step));
    const afterStep = earlier.findLast((step) => lanes[move.to]!.includes(step)) ?? 0;
    make(lanes, { ...move, afterStep });
  }
  const result = named(tables, lanes);
  const stuck = checkWalk(tables, result, 'accepted');
  return stuck ? refused(stuck) : { ok: true, lanes: result };
}
