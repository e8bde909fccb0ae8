import type { Cell, Weld } from '@tackboard/contract';
import { currentAtDuty } from '../orders/current-at-duty.js';
import { beyondLimits, type Handling } from '../queue/cell-limits.js';
import type { StepTimes } from '../orders/planned-time-of.js';

/** What decides at which cells a step can be done. */
export interface StepAbilities {
  readonly cellKind: Cell['kind'];
  /** Processes of the welds that are made in the step. */
  readonly processes: readonly string[];
  /** Degrees of mechanisation that its approved procedure allows; empty where nothing limits them. */
  readonly mechanisations: readonly string[];
  /** Its cycle, with the settings that are kept for it at each cell. */
  readonly handling: Handling;
  readonly cycle: Omit<StepTimes, 'welds' | 'setUps'> & {
    readonly welds: readonly Weld[];
    readonly setUps: readonly (StepTimes['setUps'][number] & { currentA: number | null })[];
  };
}

interface Where {
  readonly cells: readonly Cell[];
  /** Where the step stands today. */
  readonly standsAt: string;
  /** Whether somebody is qualified for the step at a cell. */
  readonly isStaffed: (cell: Cell) => boolean;
}

/**
 * The cells that could do a step: of its kind, in use, large and strong enough, with its processes, as its procedure allows, with a torch
 * and a power source that hold at its duty, and with somebody who is qualified there. What cannot be said of a cell does not
 * rule it out. A step with kept set-ups goes to those cells only, since elsewhere its settings and its program would
 * have to be found anew. Where it stands it can stay: somebody put it there.
 */
export function eligibleCells(
  step: StepAbilities,
  { cells, standsAt, isStaffed }: Where,
): Set<string> {
  const able = cells.filter(
    (cell) =>
      cell.active &&
      cell.kind === step.cellKind &&
      beyondLimits(step.handling, cell) === null &&
      step.processes.every((process) => cell.processes.includes(process)) &&
      (step.mechanisations.length === 0 || step.mechanisations.includes(cell.mechanisation)),
  );
  const kept = able.filter(({ id }) => step.cycle.setUps.some(({ cellId }) => cellId === id));
  const others = (kept.length > 0 ? kept : able).filter(
    (cell) => cell.id !== standsAt && holds(step, cell) && isStaffed(cell),
  );
  return new Set([standsAt, ...others.map(({ id }) => id)]);
}

function holds({ cycle }: StepAbilities, cell: Cell): boolean {
  const currentA = cycle.setUps.find(({ cellId }) => cellId === cell.id)?.currentA ?? null;
  const allowed = currentA === null ? null : currentAtDuty(cycle, cell);
  return currentA === null || allowed === null || currentA <= allowed.allowedA;
}
