import { hoursTable, type HoursTable } from './hours.js';
import type { LaneOrder, PlanProblem, PlanStep } from './problem.js';

/** A problem as flat tables. Steps are numbered from 1; 0 stands for the state in which a cell is found. */
export interface Tables {
  steps: number;
  cells: number;
  /** Id of each step by its number, and the other way round. */
  ids: readonly string[];
  numbers: ReadonlyMap<string, number>;
  /** Length of a row in `span`: the number of steps and one. */
  rows: number;
  weight: Float64Array;
  due: Float64Array;
  release: Float64Array;
  freeFrom: Float64Array;
  /** Per cell: set-up and work minutes of step j after step i at `i * rows + j`; Infinity where not eligible. */
  span: readonly Float64Array[];
  /** Per cell the work minutes of each step alone. */
  work: readonly Float64Array[];
  /** 1 when no step waits for a release, so that a later start shifts all that follows by the same time; else 0. */
  rigid: number;
  hours: readonly (HoursTable | null)[];
  /** Steps that come before each step. */
  after: readonly (readonly number[])[];
  /** Per step the announced cell (-1: none), its start and the cost of not keeping it. */
  announcedCell: Int32Array;
  announcedStart: Float64Array;
  announcedCost: Float64Array;
  /** Per cell the places that are held, as pairs of place and step. */
  held: readonly (readonly (readonly [place: number, step: number])[])[];
  /** No calendar, no steps that wait for others, nothing announced and nothing held. */
  plain: boolean;
}

/** Lanes as numbers of steps, in the order of the cells. */
export type NumberedLanes = number[][];

export function isEligible(tables: Tables, cell: number, step: number): boolean {
  return tables.span[cell]![step] !== Infinity;
}

/** A cell without hours can do nothing. */
function workAt(problem: PlanProblem, cell: number, step: PlanStep): number {
  if (problem.cells[cell]!.hours?.length === 0) return Infinity;
  return step.processingMin[cell] ?? Infinity;
}

function spanOf(problem: PlanProblem, cell: number): Float64Array {
  const rows = problem.steps.length + 1;
  const span = new Float64Array(rows * rows);
  const setup = problem.setupMin?.[cell];
  problem.steps.forEach((step, index) => {
    const work = workAt(problem, cell, step);
    for (let row = 0; row < rows; row += 1) {
      span[row * rows + index + 1] = work + (setup?.[row]?.[index] ?? 0);
    }
  });
  return span;
}

function perStep(problem: PlanProblem, value: (index: number) => number): Float64Array {
  return Float64Array.from({ length: problem.steps.length + 1 }, (_, at) =>
    at === 0 ? 0 : value(at - 1),
  );
}

function heldPlaces(problem: PlanProblem, numbers: ReadonlyMap<string, number>) {
  return problem.cells.map((_, cell) =>
    (problem.today?.[cell] ?? []).flatMap((id, place) => {
      const number = numbers.get(id)!;
      return problem.steps[number - 1]!.hold ? [[place, number] as const] : [];
    }),
  );
}

/** Lays a checked problem out as tables. */
export function tablesOf(problem: PlanProblem): Tables {
  const { steps, cells } = problem;
  const ids = ['', ...steps.map(({ id }) => id)];
  const numbers = new Map(ids.map((id, number) => [id, number]));
  const cellNumbers = new Map(cells.map((cell, index) => [cell.id, index]));
  const release = perStep(problem, (at) => steps[at]!.releaseMin);
  const held = heldPlaces(problem, numbers);
  const after = [[], ...steps.map((step) => (step.after ?? []).map((id) => numbers.get(id)!))];
  const hours = cells.map((cell) => (cell.hours ? hoursTable(cell.hours) : null));
  const announced = steps.some((step) => step.announced);
  const earliest = Math.min(...cells.map((cell) => cell.freeFromMin));
  return {
    steps: steps.length,
    cells: cells.length,
    ...{ ids, numbers },
    rows: steps.length + 1,
    weight: perStep(problem, (at) => steps[at]!.weight),
    due: perStep(problem, (at) => steps[at]!.dueMin),
    release,
    freeFrom: Float64Array.from(cells, (cell) => cell.freeFromMin),
    span: cells.map((_, cell) => spanOf(problem, cell)),
    work: cells.map((_, cell) => perStep(problem, (at) => workAt(problem, cell, steps[at]!))),
    rigid: steps.every((step) => step.releaseMin <= earliest) ? 1 : 0,
    hours,
    after,
    announcedCell: Int32Array.from([
      -1,
      ...steps.map((step) => (step.announced ? cellNumbers.get(step.announced.cell)! : -1)),
    ]),
    announcedStart: perStep(problem, (at) => steps[at]!.announced?.startMin ?? 0),
    announcedCost: perStep(problem, (at) => steps[at]!.announced?.cost ?? 0),
    held,
    plain:
      !announced &&
      hours.every((table) => table === null) &&
      after.every((list) => list.length === 0) &&
      held.every((list) => list.length === 0),
  };
}

export function numbered({ numbers }: Tables, lanes: LaneOrder): NumberedLanes {
  return lanes.map((lane) => lane.map((id) => numbers.get(id)!));
}

export function named({ ids }: Tables, lanes: NumberedLanes): string[][] {
  return lanes.map((lane) => lane.map((number) => ids[number]!));
}
