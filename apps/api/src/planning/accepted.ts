import type { LaneOrder } from '@tackboard/calc';

/** A queued step as far as its place in the plan depends on it. */
interface StandingStep {
  readonly id: string;
  readonly version: number;
  readonly state: string;
}

export interface StandingLane {
  readonly cellId: string;
  readonly steps: readonly StandingStep[];
}

/**
 * The planned steps that are not where the plan found them: gone, begun, moved to another cell, or overtaken. Steps
 * that came to the run queues since then do not count.
 */
export function changedSteps(
  planned: {
    readonly cellIds: readonly string[];
    readonly lanes: LaneOrder;
    readonly held: ReadonlySet<string>;
  },
  standing: readonly StandingLane[],
): string[] {
  const all = new Set(planned.lanes.flat());
  const states = new Map(
    standing.flatMap(({ steps }) => steps.map(({ id, state }) => [id, state])),
  );
  return planned.lanes.flatMap((lane, at) => {
    const now = (standing.find(({ cellId }) => cellId === planned.cellIds[at])?.steps ?? [])
      .map(({ id }) => id)
      .filter((id) => all.has(id));
    const here = lane.filter((id) => now.includes(id));
    const left = lane.filter((id) => !now.includes(id));
    const kept = now.filter((id) => lane.includes(id));
    const overtaken = here.filter((id, place) => kept[place] !== id);
    const begun = here.filter((id) => (states.get(id) === 'held') !== planned.held.has(id));
    return [...new Set([...left, ...overtaken, ...begun])];
  });
}

export interface NewPlace {
  readonly id: string;
  readonly cellId: string;
  readonly beforeStepId: string | null;
  readonly expectedVersion: number;
}

/**
 * Where the accepted steps go in the run queues as they stand, one after the other: each right behind the step that
 * precedes it in the accepted order. What is not in the plan keeps its place.
 */
export function newPlaces(
  accepted: {
    readonly cellIds: readonly string[];
    readonly lanes: LaneOrder;
    readonly moved: readonly string[];
  },
  standing: readonly StandingLane[],
): NewPlace[] {
  const versions = new Map(
    standing.flatMap(({ steps }) => steps.map(({ id, version }) => [id, version] as const)),
  );
  const queues = new Map(standing.map(({ cellId, steps }) => [cellId, steps.map(({ id }) => id)]));
  const moved = new Set(accepted.moved);
  return accepted.lanes.flatMap((lane, at) => {
    const cellId = accepted.cellIds[at] ?? '';
    const queue = queues.get(cellId) ?? [];
    return lane.flatMap((id, place) => {
      if (!moved.has(id)) return [];
      for (const other of queues.values()) {
        const from = other.indexOf(id);
        if (from >= 0) other.splice(from, 1);
      }
      const behind = lane[place - 1];
      const to = behind === undefined ? 0 : queue.indexOf(behind) + 1;
      const beforeStepId = queue[to] ?? null;
      queue.splice(to, 0, id);
      return [{ id, cellId, beforeStepId, expectedVersion: versions.get(id) ?? 0 }];
    });
  });
}
