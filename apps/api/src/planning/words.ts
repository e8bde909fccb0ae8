import type { PlanNote } from '@tackboard/calc';
import type { Lane, OrderMove, QueuedStep } from '@tackboard/contract';
import { stepWords } from '../queue/lane.js';
import type { FoundMove } from './found-order.js';

/** The steps and cells of a plan as people know them. */
export interface Names {
  readonly steps: ReadonlyMap<string, QueuedStep>;
  readonly cellCodes: ReadonlyMap<string, string>;
}

export function namesOf(lanes: readonly Lane[]): Names {
  return {
    steps: new Map(lanes.flatMap((lane) => lane.steps).map((step) => [step.id, step])),
    cellCodes: new Map(lanes.map(({ cellId, cellCode }) => [cellId, cellCode])),
  };
}

/** A sentence of the planner with the names of steps and cells in place of their ids. */
export function inWords(sentence: string, { steps, cellCodes }: Names): string {
  const named = sentence.replace(/(?:step |cell )?"([0-9a-f-]{36})"/gi, (whole, id: string) => {
    const step = steps.get(id);
    return step === undefined ? (cellCodes.get(id) ?? whole) : stepWords(step);
  });
  return named.charAt(0).toUpperCase() + named.slice(1);
}

export function noteWords(notes: readonly PlanNote[], names: Names): string[] {
  const overdue = notes.filter(({ code }) => code === 'dueBeforeRelease');
  const others = notes.filter(({ code }) => code !== 'dueBeforeRelease');
  const steps = overdue.flatMap(({ about }) => names.steps.get(about ?? '') ?? []);
  const jobs = [...new Set(steps.map(({ jobNumber }) => jobNumber))].toSorted((a, b) => a - b);
  return [
    ...(jobs.length > 0
      ? [`Past their due date already, so late in any order: job ${jobs.join(', ')}.`]
      : []),
    ...others.map(({ words }) => inWords(words, names)),
  ];
}

export function moveView({ steps, ...effect }: FoundMove, names: Names): OrderMove {
  return {
    reasons: effect.reasons.map((reason) => ({ ...reason })),
    cost: effect.cost,
    changeOverMin: effect.changeOverMin,
    steps: steps.map(({ id, fromCell, toCell, beforeStep }) => {
      const step = known(names, id);
      return {
        ...namedStep(step),
        customerName: step.customerName,
        fromCellCode: names.cellCodes.get(fromCell) ?? '',
        toCellCode: names.cellCodes.get(toCell) ?? '',
        before: beforeStep === null ? null : namedStep(known(names, beforeStep)),
      };
    }),
  };
}

function namedStep({ id, jobNumber, stepName, partNumber }: QueuedStep) {
  return { jobStepId: id, jobNumber, stepName, partNumber };
}

function known({ steps }: Names, id: string): QueuedStep {
  const step = steps.get(id);
  if (step === undefined) throw new Error(`The order names a step ${id} that is not in the plan.`);
  return step;
}

/** Why a step stands where it stands, kept with its move. */
export function reasonFor({ cost, changeOverMin }: FoundMove): string {
  const change = (value: number, unit: string) =>
    value === 0
      ? `no change of ${unit}`
      : `${Math.abs(Math.round(value))} ${unit} ${value < 0 ? 'less' : 'more'}`;
  return `Accepted from the proposed order of work: ${change(cost, 'weighted minutes late')}, ${change(changeOverMin, 'min change-over')}.`;
}
