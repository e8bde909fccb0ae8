import { newWalk, walkLanes } from './evaluate.js';
import type { LaneOrder, PlanProblem, PlanStep } from './problem.js';
import type { ArgumentRefusal } from '../result.js';
import { numbered, type Tables } from './tables.js';

/** More steps than this would need set-up tables beyond what a worker should hold. */
export const planStepsMax = 1_500;

type Finding = ArgumentRefusal | null;

function finding(argument: string, given: unknown, allowed: string): ArgumentRefusal {
  return { argument, given, allowed };
}

function checkSize({ steps, cells }: PlanProblem): Finding {
  if (cells.length === 0) return finding('cells', 0, 'At least one cell is needed to plan for.');
  if (steps.length === 0) return finding('steps', 0, 'There is no step to put in order: add one.');
  if (steps.length <= planStepsMax) return null;
  return finding(
    'steps',
    steps.length,
    `At most ${planStepsMax} steps are put in order at once: plan fewer cells or a shorter time.`,
  );
}

function checkIds(argument: string, ids: readonly string[]): Finding {
  const twice = ids.find((id, at) => ids.indexOf(id) !== at);
  return twice === undefined
    ? null
    : finding(argument, twice, `"${twice}" is there twice: each is named once.`);
}

function isMinutes(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value) && Math.abs(value) <= 1e12;
}

function checkNumbers(problem: PlanProblem, step: PlanStep, name: string): Finding {
  const rows: [string, unknown, number][] = [
    ['weight', step.weight, 0],
    ['dueMin', step.dueMin, -Infinity],
    ['releaseMin', step.releaseMin, -Infinity],
  ];
  if (step.announced) {
    rows.push([`announced.startMin`, step.announced.startMin, -Infinity]);
    rows.push([`announced.cost`, step.announced.cost, 0]);
  }
  for (const [field, value, least] of rows) {
    if (isMinutes(value) && value >= least) continue;
    const kind = least === 0 ? 'a number of 0 or more' : 'a number of minutes';
    return finding(`${name}.${field}`, value, `Step "${step.id}": ${kind} is needed.`);
  }
  const work = step.processingMin;
  if (work.length !== problem.cells.length) {
    return finding(
      `${name}.processingMin`,
      work.length,
      `Step "${step.id}": one entry per cell is needed, ${problem.cells.length} in all.`,
    );
  }
  const wrong = work.find((minutes) => minutes !== null && !(isMinutes(minutes) && minutes > 0));
  if (wrong !== undefined) {
    return finding(
      `${name}.processingMin`,
      wrong,
      `Step "${step.id}": work takes more than 0 minutes at a cell, or null where it cannot be done.`,
    );
  }
  return null;
}

function canRun(problem: PlanProblem, step: PlanStep): boolean {
  return step.processingMin.some(
    (minutes, cell) => minutes !== null && problem.cells[cell]!.hours?.length !== 0,
  );
}

function checkStep(problem: PlanProblem, step: PlanStep, at: number): Finding {
  const name = `steps[${at}]`;
  const numbers = checkNumbers(problem, step, name);
  if (numbers) return numbers;
  if (!canRun(problem, step)) {
    return finding(
      `${name}.processingMin`,
      step.processingMin,
      `Step "${step.id}" can be done at no cell that has hours: give minutes for one, or give that cell hours.`,
    );
  }
  const { announced } = step;
  if (announced && !problem.cells.some((cell) => cell.id === announced.cell)) {
    return finding(
      `${name}.announced.cell`,
      announced.cell,
      `Step "${step.id}" is announced at a cell that is not in the plan.`,
    );
  }
  const unknown = step.after?.find((id) => !problem.steps.some((other) => other.id === id));
  if (unknown === undefined) return null;
  return finding(
    `${name}.after`,
    unknown,
    `Step "${step.id}" waits for a step that is not in the plan.`,
  );
}

/** Steps that wait for each other in a ring can never begin. */
function checkLoops({ steps }: PlanProblem): Finding {
  const waiting = new Map(steps.map((step) => [step.id, step.after ?? []]));
  let before = -1;
  while (before !== waiting.size) {
    before = waiting.size;
    for (const [id, after] of waiting)
      if (!after.some((other) => waiting.has(other))) waiting.delete(id);
  }
  if (waiting.size === 0) return null;
  const ring = [...waiting.keys()].map((id) => `"${id}"`).join(', ');
  return finding(
    'steps.after',
    [...waiting.keys()],
    `Steps ${ring} wait for each other: take one of the links out.`,
  );
}

function checkCells({ cells }: PlanProblem): Finding {
  for (const [at, cell] of cells.entries()) {
    if (!isMinutes(cell.freeFromMin)) {
      return finding(
        `cells[${at}].freeFromMin`,
        cell.freeFromMin,
        `Cell "${cell.id}": a number of minutes is needed.`,
      );
    }
    let end = -Infinity;
    for (const { fromMin, toMin } of cell.hours ?? []) {
      if (!isMinutes(fromMin) || !isMinutes(toMin) || fromMin < end || toMin <= fromMin) {
        return finding(
          `cells[${at}].hours`,
          [fromMin, toMin],
          `Cell "${cell.id}": hours come in order, apart from each other, each ending after it begins.`,
        );
      }
      end = toMin;
    }
  }
  return null;
}

function checkSetup({ setupMin, cells, steps }: PlanProblem): Finding {
  if (!setupMin) return null;
  const size = `${cells.length} tables of ${steps.length + 1} rows and ${steps.length} columns of minutes of 0 or more are needed.`;
  if (setupMin.length !== cells.length) return finding('setupMin', setupMin.length, size);
  for (const [cell, table] of setupMin.entries()) {
    if (table.length !== steps.length + 1) return finding(`setupMin[${cell}]`, table.length, size);
    for (const [row, line] of table.entries()) {
      const name = `setupMin[${cell}][${row}]`;
      if (line.length !== steps.length) return finding(name, line.length, size);
      const wrong = line.findIndex((minutes) => !isMinutes(minutes) || minutes < 0);
      if (wrong >= 0) return finding(`${name}[${wrong}]`, line[wrong], size);
    }
  }
  return null;
}

/** Whether lanes hold every step once, each at a cell that can do it. */
export function checkLanes(problem: PlanProblem, lanes: LaneOrder, argument: string): Finding {
  if (lanes.length !== problem.cells.length) {
    return finding(
      argument,
      lanes.length,
      `One lane per cell is needed, ${problem.cells.length} in all.`,
    );
  }
  const steps = new Map(problem.steps.map((step) => [step.id, step]));
  const seen = new Set<string>();
  for (const [cell, lane] of lanes.entries()) {
    for (const id of lane) {
      const step = steps.get(id);
      const where = problem.cells[cell]!;
      if (!step) return finding(argument, id, `Step "${id}" is in a lane but not in the plan.`);
      if (seen.has(id)) return finding(argument, id, `Step "${id}" is in the lanes twice.`);
      if (step.processingMin[cell] === null || where.hours?.length === 0) {
        return finding(
          argument,
          id,
          `Step "${id}" stands at "${where.id}", which cannot do it or has no hours.`,
        );
      }
      seen.add(id);
    }
  }
  const missing = problem.steps.find((step) => !seen.has(step.id));
  return missing ? finding(argument, missing.id, `Step "${missing.id}" is in no lane.`) : null;
}

/** Started work is at the front of its lane: nothing can go before it any more. */
function checkStarted(problem: PlanProblem, today: LaneOrder): Finding {
  const started = new Set(
    problem.steps.filter((step) => step.hold === 'started').map((step) => step.id),
  );
  for (const lane of today) {
    const late = lane.find((id, at) => started.has(id) && at > 0 && !started.has(lane[at - 1]!));
    if (late === undefined) continue;
    return finding('today', late, `Step "${late}" is started: it stands first in its lane.`);
  }
  return null;
}

function checkToday(problem: PlanProblem): Finding {
  const { today } = problem;
  if (today) return checkLanes(problem, today, 'today') ?? checkStarted(problem, today);
  const held = problem.steps.find((step) => step.hold);
  return held
    ? finding(
        'today',
        null,
        `Step "${held.id}" is held at its place: today's lanes are needed to know it.`,
      )
    : null;
}

/** The first thing that keeps a problem from being planned, in words; null when it can be. */
export function checkProblem(problem: PlanProblem): Finding {
  return (
    checkSize(problem) ??
    checkIds(
      'cells',
      problem.cells.map((cell) => cell.id),
    ) ??
    checkIds(
      'steps',
      problem.steps.map((step) => step.id),
    ) ??
    checkCells(problem) ??
    problem.steps.reduce<Finding>(
      (found, step, at) => found ?? checkStep(problem, step, at),
      null,
    ) ??
    checkLoops(problem) ??
    checkSetup(problem) ??
    checkToday(problem)
  );
}

/** Lanes in which steps hold each other up for ever have no cost. */
export function checkWalk(tables: Tables, lanes: LaneOrder, argument: string): Finding {
  if (walkLanes(tables, numbered(tables, lanes), newWalk(tables)) < Infinity) return null;
  return finding(
    argument,
    lanes,
    'In these lanes steps wait for each other for ever: move one of them up.',
  );
}
