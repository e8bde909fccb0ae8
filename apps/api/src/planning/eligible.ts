import type { Cell } from '@tackboard/contract';

/** What decides at which cells a step can be done. */
export interface StepAbilities {
  readonly cellKind: Cell['kind'];
  /** Processes of the welds that are made in the step. */
  readonly processes: readonly string[];
  /** Degrees of mechanisation that its approved procedure allows; empty where nothing limits them. */
  readonly mechanisations: readonly string[];
  /** Cells for which a set-up is kept. */
  readonly setUpCellIds: readonly string[];
}

/**
 * The cells that could do a step: of its kind, in use, with its processes, as its procedure allows. A step with
 * kept set-ups goes to those cells only, since elsewhere its settings and its program would have to be found anew.
 */
export function eligibleCells(step: StepAbilities, cells: readonly Cell[]): Set<string> {
  const able = cells
    .filter(
      ({ active, kind, processes, mechanisation }) =>
        active &&
        kind === step.cellKind &&
        step.processes.every((process) => processes.includes(process)) &&
        (step.mechanisations.length === 0 || step.mechanisations.includes(mechanisation)),
    )
    .map(({ id }) => id);
  const kept = able.filter((id) => step.setUpCellIds.includes(id));
  return new Set(kept.length > 0 ? kept : able);
}
