import type { Cell } from '@tackboard/contract';
import { beyondLimits, type CellLimits, type Handling } from '../queue/cell-limits.js';
import { currentAtDuty, type RatedCell } from './current-at-duty.js';
import type { StepTimes } from './planned-time-of.js';

interface SetUpThere {
  readonly cellId: string;
  readonly mechanisation: string;
  readonly currentA: number | null;
}

/** What decides at which cells a step can be done. */
export interface StepAbilities {
  /** Processes of the welds that are made in the step. */
  readonly processes: readonly string[];
  /** Degrees of mechanisation that its approved procedure allows; empty where nothing limits them. */
  readonly mechanisations: readonly string[];
  readonly handling: Handling;
  /** Its cycle, with the settings that are kept for it at each cell. */
  readonly cycle: Omit<StepTimes, 'setUps'> & {
    readonly setUps: readonly (StepTimes['setUps'][number] & SetUpThere)[];
  };
}

export type EquippedCell = CellLimits & Pick<Cell, 'id' | 'kind' | 'processes' | 'mechanisation'>;

/** The processes of welds that a cell has not on file. */
export function processesLackingAt(
  cell: Pick<Cell, 'processes'>,
  asked: readonly string[],
): string[] {
  return [...new Set(asked)].filter((process) => !cell.processes.includes(process));
}

/**
 * Whether a cell is of the kind of a step, large and strong enough, with its processes, and as its procedure allows:
 * as the set-up says that is kept there, else as the cell usually works.
 */
export function isEquippedFor(step: StepAbilities, cell: EquippedCell): boolean {
  const there = step.cycle.setUps.find(({ cellId }) => cellId === cell.id);
  const mechanisation = there?.mechanisation ?? cell.mechanisation;
  return (
    cell.kind === step.cycle.cellKind &&
    beyondLimits(step.handling, cell) === null &&
    processesLackingAt(cell, step.processes).length === 0 &&
    (step.mechanisations.length === 0 || step.mechanisations.includes(mechanisation))
  );
}

/** Whether torch and power source of a cell hold at the duty of a step; also where that cannot be said. */
export function carriesCurrent({ cycle }: StepAbilities, cell: RatedCell): boolean {
  const currentA = cycle.setUps.find(({ cellId }) => cellId === cell.id)?.currentA ?? null;
  const allowed = currentA === null ? null : currentAtDuty(cycle, cell);
  return currentA === null || allowed === null || currentA <= allowed.allowedA;
}
