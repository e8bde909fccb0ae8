import { finishOf, openFrom } from './hours.js';
import { isEligible, type NumberedLanes, type Tables } from './tables.js';

interface Scale {
  workMean: number;
  setupMean: number;
  k1: number;
  k2: number;
}

/** Mean set-up minutes before a step at a cell, over all that may run before it. */
function meanSetup(tables: Tables, cell: number, step: number): number {
  const span = tables.span[cell]!;
  let sum = 0;
  for (let before = 0; before <= tables.steps; before += 1) {
    if (before !== step) sum += span[before * tables.rows + step]!;
  }
  return sum / tables.steps - tables.work[cell]![step]!;
}

/** The look-ahead factors after Lee, Bhaskaran and Pinedo (1997), from the range and tightness of the due dates. */
function scaleOf(tables: Tables): Scale {
  let work = 0;
  let setup = 0;
  let pairs = 0;
  let dueSum = 0;
  let dueMin = Infinity;
  let dueMax = -Infinity;
  for (let step = 1; step <= tables.steps; step += 1) {
    dueSum += tables.due[step]!;
    dueMin = Math.min(dueMin, tables.due[step]!);
    dueMax = Math.max(dueMax, tables.due[step]!);
    for (let cell = 0; cell < tables.cells; cell += 1) {
      if (!isEligible(tables, cell, step)) continue;
      work += tables.work[cell]![step]!;
      setup += meanSetup(tables, cell, step);
      pairs += 1;
    }
  }
  const workMean = Math.max(work / pairs, 1e-9);
  const setupMean = Math.max(setup / pairs, 0);
  const perCell = tables.steps / tables.cells;
  const severity = setupMean / workMean;
  const packing = Math.max(0.1, Math.min(1, 0.4 + 10 / perCell ** 2 - severity / 7));
  const makespan = perCell * (workMean + packing * setupMean);
  const tightness = Math.max(0.05, 1 - dueSum / tables.steps / makespan);
  const range = (dueMax - dueMin) / makespan;
  return {
    workMean,
    setupMean,
    k1: range <= 0.5 ? 4.5 + range : Math.max(6 - 2 * range, 0.5),
    k2: severity > 0 ? tightness / (2 * Math.sqrt(severity)) : 1,
  };
}

/** Logarithm of the index, so that small values do not all become zero. */
function logIndex(
  tables: Tables,
  scale: Scale,
  at: { cell: number; before: number; timeMin: number; readyMin: number; step: number },
): number {
  const { cell, before, timeMin, readyMin, step } = at;
  const span = tables.span[cell]![before * tables.rows + step]!;
  const work = tables.work[cell]![step]!;
  const slack = Math.max(tables.due[step]! - work - Math.max(timeMin, readyMin), 0);
  const setup = scale.setupMean > 0 ? (span - work) / (scale.k2 * scale.setupMean) : 0;
  const wait = Math.max(readyMin - timeMin, 0) / scale.workMean;
  return (
    Math.log((tables.weight[step]! + 1e-9) / Math.max(work, 1e-9)) -
    slack / (scale.k1 * scale.workMean) -
    setup -
    wait
  );
}

interface Growing {
  lanes: NumberedLanes;
  free: number[];
  finish: Float64Array;
  waiting: Set<number>;
}

function readyAt(tables: Tables, growing: Growing, step: number): number {
  let ready = tables.release[step]!;
  for (const earlier of tables.after[step]!) {
    if (growing.waiting.has(earlier)) return Infinity;
    ready = Math.max(ready, growing.finish[earlier]!);
  }
  return ready;
}

/** The step with the highest index for one cell; 0 when none can go there now. */
function pick(tables: Tables, scale: Scale, growing: Growing, cell: number): number {
  const lane = growing.lanes[cell]!;
  let chosen = 0;
  let highest = -Infinity;
  for (const step of growing.waiting) {
    if (!isEligible(tables, cell, step)) continue;
    const readyMin = readyAt(tables, growing, step);
    if (readyMin === Infinity) continue;
    const index = logIndex(tables, scale, {
      cell,
      before: lane[lane.length - 1] ?? 0,
      timeMin: growing.free[cell]!,
      readyMin,
      step,
    });
    if (chosen === 0 || index > highest) {
      highest = index;
      chosen = step;
    }
  }
  return chosen;
}

function append(tables: Tables, growing: Growing, cell: number, step: number): void {
  const lane = growing.lanes[cell]!;
  const minutes = tables.span[cell]![(lane[lane.length - 1] ?? 0) * tables.rows + step]!;
  const earliest = Math.max(growing.free[cell]!, readyAt(tables, growing, step));
  const hours = tables.hours[cell];
  const finish = hours ? finishOf(hours, openFrom(hours, earliest), minutes) : earliest + minutes;
  lane.push(step);
  growing.waiting.delete(step);
  growing.finish[step] = finish;
  growing.free[cell] = finish;
}

/**
 * An order by the rule of apparent tardiness cost with set-ups: the cell that is free first takes the step with the
 * highest index (weight / work) x exp(-slack / (k1 mean work)) x exp(-set-up / (k2 mean set-up)); waiting for a
 * release lowers it likewise. Source: Lee, Bhaskaran and Pinedo (1997). Held steps are put at their places afterwards.
 */
export function buildOrder(tables: Tables): NumberedLanes {
  const scale = scaleOf(tables);
  const heldSteps = new Set(tables.held.flatMap((places) => places.map(([, step]) => step)));
  const growing: Growing = {
    lanes: Array.from({ length: tables.cells }, () => []),
    free: [...tables.freeFrom],
    finish: new Float64Array(tables.steps + 1),
    waiting: new Set(
      Array.from({ length: tables.steps }, (_, at) => at + 1).filter(
        (step) => !heldSteps.has(step),
      ),
    ),
  };
  const cells = Array.from({ length: tables.cells }, (_, cell) => cell);
  while (growing.waiting.size > 0) {
    cells.sort((left, right) => growing.free[left]! - growing.free[right]! || left - right);
    const choice = cells
      .map((cell) => ({ cell, step: pick(tables, scale, growing, cell) }))
      .find(({ step }) => step > 0);
    // What is left waits for held steps: it goes last, and the search finds its place.
    if (!choice) break;
    append(tables, growing, choice.cell, choice.step);
  }
  for (const step of growing.waiting) {
    const cell = cells.find((at) => isEligible(tables, at, step))!;
    growing.lanes[cell]!.push(step);
  }
  tables.held.forEach((places, cell) => {
    for (const [at, step] of places) growing.lanes[cell]!.splice(at, 0, step);
  });
  return growing.lanes;
}
