import type { Cell, Weld } from '@tackboard/contract';
import { carriesCurrent, isEquippedFor, type StepAbilities } from '../orders/could-do.js';

/** A step with its welds, as people are judged by them too. */
export interface StepToPlace extends StepAbilities {
  readonly cycle: StepAbilities['cycle'] & { readonly welds: readonly Weld[] };
}

interface Where {
  readonly cells: readonly Cell[];
  /** Where the step stands today. */
  readonly standsAt: string;
  /** Whether somebody is qualified for the step at a cell. */
  readonly isStaffed: (cell: Cell) => boolean;
}

/**
 * The cells that could do a step: in use, equipped for it, with a torch and a power source that hold at its duty, and
 * with somebody who is qualified there. What cannot be said of a cell does not rule it out. A step with kept set-ups
 * goes to those cells only, since elsewhere its settings and its program would have to be found anew. Where it stands
 * it can stay: somebody put it there.
 */
export function eligibleCells(
  step: StepAbilities,
  { cells, standsAt, isStaffed }: Where,
): Set<string> {
  const able = cells.filter((cell) => cell.active && isEquippedFor(step, cell));
  const kept = able.filter(({ id }) => step.cycle.setUps.some(({ cellId }) => cellId === id));
  const others = (kept.length > 0 ? kept : able).filter(
    (cell) => cell.id !== standsAt && carriesCurrent(step, cell) && isStaffed(cell),
  );
  return new Set([standsAt, ...others.map(({ id }) => id)]);
}
