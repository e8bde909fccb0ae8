import { explainOrder, type LaidOut, type ProposedMove } from '@tackboard/calc';
import type { Plan } from './plan.js';
import { changeOverIn } from './set-up-table.js';

type FoundStep = ProposedMove['steps'][number] & { readonly beforeStep: string | null };

export interface FoundMove extends Pick<ProposedMove, 'reasons' | 'cost'> {
  readonly steps: readonly FoundStep[];
  /** Job minutes of change-over that the move adds; below zero where it saves them. */
  readonly changeOverMin: number;
}

/** An order with the moves that lead to it, as plain data. */
export interface FoundOrder {
  readonly lanes: readonly (readonly string[])[];
  readonly todayCost: number;
  readonly proposedCost: number;
  readonly moves: readonly FoundMove[];
}

/** An order as moves from today's lanes, each with its reasons, its change-over and the step it then stands before. */
export function foundOrder(plan: Plan, problem: LaidOut<Plan['problem']>, lanes: string[][]) {
  const answer = explainOrder({ problem, proposed: lanes });
  if (!answer.ok) return answer;
  const walked = plan.problem.today.map((lane) => [...lane]);
  const changeOverOf = changeOverIn(plan);
  let changeOver = changeOverOf(walked);
  const moves = answer.moves.map(({ steps, reasons, cost }): FoundMove => {
    const placed = steps.map((step) => ({ ...step, beforeStep: make(plan, walked, step) }));
    const now = changeOverOf(walked);
    const changeOverMin = now - changeOver;
    changeOver = now;
    return { steps: placed, reasons, cost, changeOverMin };
  });
  const { todayCost, proposedCost } = answer;
  const found: FoundOrder = { lanes, todayCost, proposedCost, moves };
  return { ok: true as const, found };
}

/** Makes one move in the lanes; answers the step that then follows. */
function make(
  { problem }: Plan,
  lanes: string[][],
  { id, fromCell, toCell, afterStep }: ProposedMove['steps'][number],
): string | null {
  const laneOf = (cellId: string) => lanes[problem.cells.findIndex((cell) => cell.id === cellId)]!;
  const [from, to] = [laneOf(fromCell), laneOf(toCell)];
  from.splice(from.indexOf(id), 1);
  const at = afterStep === null ? 0 : to.indexOf(afterStep) + 1;
  to.splice(at, 0, id);
  return to[at + 1] ?? null;
}
