import {
  greedyCover,
  heldWeight,
  mergedCover,
  type CoverProblem,
  type MergedCover,
} from '@tackboard/calc';
import highsModule, { type Highs, type ModelData } from 'highs';

/** Sets that were chosen, by their place in the problem, and how good the choice is known to be. */
export interface Choice {
  readonly chosen: readonly number[];
  /** Places that the chosen sets hold. */
  readonly held: number;
  /** No choice is better. */
  readonly proven: boolean;
  /** What no choice can be better than: fewest sets, or most places. */
  readonly bound: number;
}

export interface Choices {
  /** The fewest sets that hold every place that can be held. */
  readonly fewest: Choice;
  /** At most `budget` sets that hold the most places. */
  readonly best: Choice;
}

interface Task {
  readonly problem: CoverProblem;
  readonly budget: number;
  readonly limitMs: number;
}

/** The package describes its CommonJS door only; the module's own default is the loader itself. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

/** Room for the last digits of a bound that is a whole number. */
const tolerance = 1e-6;
/** The same problem gives the same answer, unless the time runs out. */
const settings = { output_flag: false, random_seed: 1, mip_rel_gap: 0 };

interface Rows {
  readonly starts: number[];
  readonly indices: number[];
  readonly values: number[];
  readonly lower: number[];
}

/** For each place the sets that hold it, and with `counted` less one where the place is counted as held. */
function placeRows({ sets, weights }: MergedCover, counted: boolean): Rows {
  const holders = weights.map((): number[] => []);
  sets.forEach((set, at) => {
    for (const place of set) holders[place]?.push(at);
  });
  const rows: Rows = { starts: [0], indices: [], values: [], lower: [] };
  holders.forEach((of, place) => {
    rows.indices.push(...of, ...(counted ? [sets.length + place] : []));
    rows.values.push(...of.map(() => 1), ...(counted ? [-1] : []));
    rows.starts.push(rows.indices.length);
    rows.lower.push(counted ? 0 : 1);
  });
  return rows;
}

function modelOf(
  highs: Highs,
  rows: Rows,
  rest: { costs: readonly number[]; mostSets: number | null; sets: number },
): ModelData {
  const { costs, mostSets, sets } = rest;
  const upper = rows.lower.map(() => highs.infinity);
  const { starts, indices, values, lower } = rows;
  if (mostSets !== null) {
    for (let at = 0; at < sets; at += 1) {
      indices.push(at);
      values.push(1);
    }
    starts.push(indices.length);
    lower.push(0);
    upper.push(mostSets);
  }
  return {
    ...{ numCols: costs.length, numRows: lower.length, colCost: costs },
    ...{ colLower: costs.map(() => 0), colUpper: costs.map(() => 1) },
    ...{ rowLower: lower, rowUpper: upper },
    integrality: costs.map(() => highs.constants.variableType.integer),
    matrix: {
      ...{ format: 'csr', numRows: lower.length, numCols: costs.length },
      ...{ starts, indices, values },
    },
  };
}

interface Solved {
  /** Null where the time ran out before anything was found. */
  readonly values: Float64Array | null;
  readonly proven: boolean;
  /** What the objective cannot fall below; null where nothing is known. */
  readonly bound: number | null;
}

function solve(highs: Highs, model: ModelData, start: readonly number[], limitMs: number): Solved {
  const made = highs.createModel(model);
  try {
    made.options.set({ ...settings, time_limit: Math.max(0.05, limitMs / 1000) });
    made.setSolution({ indices: [...start], values: start.map(() => 1) });
    const { modelStatus } = made.run();
    const { colValue } = made.getSolution();
    const bound = Number(made.info.get('mip_dual_bound'));
    return {
      values: Number(made.info.get('primal_solution_status')) === 2 ? colValue : null,
      proven: modelStatus === highs.constants.modelStatus.optimal,
      bound: Number.isFinite(bound) ? bound : null,
    };
  } finally {
    made.dispose();
  }
}

const chosenOf = (values: Float64Array, sets: number) =>
  Array.from({ length: sets }, (_, at) => at).filter((at) => (values[at] ?? 0) > 0.5);

function fewestSets(highs: Highs, merged: MergedCover, limitMs: number): Choice {
  const { sets } = merged;
  const greedy = greedyCover(merged);
  const model = modelOf(highs, placeRows(merged, false), {
    ...{ costs: sets.map(() => 1), mostSets: null, sets: sets.length },
  });
  const { values, proven, bound } = solve(highs, model, greedy, limitMs);
  const chosen = values === null ? greedy : chosenOf(values, sets.length);
  const least = Math.min(chosen.length, Math.max(1, Math.ceil((bound ?? 1) - tolerance)));
  return {
    chosen,
    held: heldWeight(merged, chosen),
    bound: proven ? chosen.length : least,
    proven: proven || least === chosen.length,
  };
}

function mostPlaces(
  highs: Highs,
  merged: MergedCover,
  { budget, limitMs }: Pick<Task, 'budget' | 'limitMs'>,
): Choice {
  const { sets, weights } = merged;
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const greedy = greedyCover(merged, budget);
  const counted = new Set(greedy.flatMap((at) => sets[at] ?? []));
  const start = [...greedy, ...[...counted].map((place) => sets.length + place)];
  const model = modelOf(highs, placeRows(merged, true), {
    costs: [...sets.map(() => 0), ...weights.map((weight) => -weight)],
    ...{ mostSets: budget, sets: sets.length },
  });
  const { values, proven, bound } = solve(highs, model, start, limitMs);
  const chosen = values === null ? greedy : chosenOf(values, sets.length);
  const held = heldWeight(merged, chosen);
  const most = Math.max(held, Math.min(all, Math.floor(-(bound ?? -all) + tolerance)));
  return { chosen, held, bound: proven ? held : most, proven: proven || most === held };
}

/**
 * Chooses sets by mixed-integer programming, exactly where the time is enough; else the best found with the bound
 * that was proven. The greedy choice is the beginning, so that the answer is never worse than it.
 */
export async function chooseSets({ problem, budget, limitMs }: Task): Promise<Choices> {
  const merged = mergedCover(problem);
  const all = merged.weights.length;
  const none: Choice = { chosen: [], held: 0, proven: true, bound: 0 };
  if (all === 0) return { fewest: none, best: none };
  const highs = await loadHighs();
  const startedAt = performance.now();
  const fewest = fewestSets(highs, merged, limitMs * 0.6);
  // What holds everything within the budget cannot be bettered.
  if (fewest.chosen.length <= budget) {
    return { fewest, best: { ...fewest, proven: true, bound: fewest.held } };
  }
  const leftMs = limitMs - (performance.now() - startedAt);
  return { fewest, best: mostPlaces(highs, merged, { budget, limitMs: leftMs }) };
}
