import { acceptMoves, evaluateOrder, type LaidOut, type LaneOrder } from '@tackboard/calc';
import { foundOrder, type FoundMove } from './found-order.js';
import type { Plan } from './plan.js';
import { changeOverIn } from './set-up-table.js';

export interface OrderToTidy {
  readonly plan: Plan;
  /** The problem of the plan with its set-up table. */
  readonly problem: LaidOut<Plan['problem']>;
  readonly lanes: string[][];
  /** Ends the tidying early, with what is tidied by then. */
  readonly isLate: () => boolean;
}

/**
 * The order without moves that gain nothing: many orders cost the same, and what stays where it is asks nobody to
 * think again. Steps go back towards today's places as long as neither lateness nor, at the same lateness,
 * change-over grows.
 */
export function withoutIdleMoves(order: OrderToTidy): string[][] {
  if (order.isLate()) return order.lanes;
  const best = startOf(order);
  leaveOutMoves(order, best);
  putBackInOrder(order, best);
  return best.lanes;
}

interface Best {
  lanes: string[][];
  /** Takes an order that is as good as the best one so far, else answers false. */
  take(lanes: string[][]): boolean;
}

function startOf({ plan, problem, lanes }: OrderToTidy): Best {
  const changeOverOf = changeOverIn(plan);
  const worthOf = (some: LaneOrder) => {
    const walked = evaluateOrder({ problem, lanes: some });
    const cost = walked.ok ? walked.cost : Infinity;
    return { cost, changeOverMin: changeOverOf(some) };
  };
  let worth = worthOf(lanes);
  return {
    lanes,
    take(tried) {
      const found = worthOf(tried);
      const isAsGood =
        found.cost < worth.cost ||
        (found.cost === worth.cost && found.changeOverMin <= worth.changeOverMin);
      if (isAsGood) [this.lanes, worth] = [tried, found];
      return isAsGood;
    },
  };
}

/** Leaves out moves, many at once where that is possible. */
function leaveOutMoves({ plan, problem, lanes, isLate }: OrderToTidy, best: Best): void {
  const answer = foundOrder(plan, problem, lanes);
  if (!answer.ok) return;
  let kept = answer.found.moves;

  function leaveOut(moves: readonly FoundMove[]): void {
    if (moves.length === 0 || isLate()) return;
    const rest = kept.filter((move) => !moves.includes(move));
    const accepted = rest.flatMap(({ steps }) => steps.map(({ id }) => id));
    const tried = acceptMoves({ problem, proposed: lanes, accepted });
    if (tried.ok && best.take(tried.lanes)) kept = rest;
    else if (moves.length > 1) {
      const middle = Math.ceil(moves.length / 2);
      leaveOut(moves.slice(0, middle));
      leaveOut(moves.slice(middle));
    }
  }

  // What gains nothing at its turn comes first; the others may have become idle by that.
  const isIdle = ({ cost, changeOverMin }: FoundMove) => cost >= 0 && changeOverMin >= 0;
  leaveOut(kept.filter(isIdle));
  leaveOut(kept.filter((move) => !isIdle(move)));
}

/** Lets neighbours change places that stand the other way round today, until no such change is free. */
function putBackInOrder({ plan, isLate }: OrderToTidy, best: Best): void {
  const today = new Map(
    plan.problem.today.flatMap((lane, cell) => lane.map((id, at) => [id, { cell, at }] as const)),
  );
  const isTurned = (first: string, second: string): boolean => {
    const [one, two] = [today.get(first), today.get(second)];
    return one !== undefined && one.cell === two?.cell && one.at > two.at;
  };
  let changed = true;
  while (changed) {
    changed = false;
    for (let cell = 0; cell < best.lanes.length; cell += 1) {
      for (let at = 1; at < best.lanes[cell]!.length; at += 1) {
        if (isLate()) return;
        const lane = [...best.lanes[cell]!];
        const [first, second] = [lane[at - 1]!, lane[at]!];
        if (!isTurned(first, second)) continue;
        lane.splice(at - 1, 2, second, first);
        changed = best.take(best.lanes.with(cell, lane)) || changed;
      }
    }
  }
}
