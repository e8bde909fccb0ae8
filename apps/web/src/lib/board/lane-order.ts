interface Placed {
  readonly id: string;
}

export interface OrderedLane<Step extends Placed = Placed> {
  readonly cellId: string;
  readonly cellKind: string;
  readonly steps: readonly Step[];
}

/** Where a step goes: before another one, or at the end of the cell's queue. */
export interface Place {
  readonly cellId: string;
  readonly beforeStepId: string | null;
}

interface Found<Lane> {
  readonly lane: Lane;
  readonly laneAt: number;
  readonly at: number;
}

function find<Lane extends OrderedLane>(
  lanes: readonly Lane[],
  stepId: string,
): Found<Lane> | null {
  for (const [laneAt, lane] of lanes.entries()) {
    const at = lane.steps.findIndex((step) => step.id === stepId);
    if (at >= 0) return { lane, laneAt, at };
  }
  return null;
}

/** One place earlier in the same queue; null when the step is first already. */
export function placeEarlier(lanes: readonly OrderedLane[], stepId: string): Place | null {
  const found = find(lanes, stepId);
  const before = found?.lane.steps[found.at - 1];
  return found && before ? { cellId: found.lane.cellId, beforeStepId: before.id } : null;
}

/** One place later in the same queue; null when the step is last already. */
export function placeLater(lanes: readonly OrderedLane[], stepId: string): Place | null {
  const found = find(lanes, stepId);
  if (!found || found.at === found.lane.steps.length - 1) return null;
  return { cellId: found.lane.cellId, beforeStepId: found.lane.steps[found.at + 2]?.id ?? null };
}

/** The nearest lane of the same kind to one side, at the same height; null when there is none. */
export function placeBeside(
  lanes: readonly OrderedLane[],
  stepId: string,
  side: 'left' | 'right',
): Place | null {
  const found = find(lanes, stepId);
  if (!found) return null;
  const onSide =
    side === 'left' ? lanes.slice(0, found.laneAt).reverse() : lanes.slice(found.laneAt + 1);
  const lane = onSide.find((one) => one.cellKind === found.lane.cellKind);
  return lane ? { cellId: lane.cellId, beforeStepId: lane.steps[found.at]?.id ?? null } : null;
}

/** The lanes as they look once the step stands at its new place. */
export function arranged<Step extends Placed, Lane extends OrderedLane<Step>>(
  lanes: readonly Lane[],
  stepId: string,
  place: Place,
): readonly Lane[] {
  const found = find(lanes, stepId);
  const step = found?.lane.steps[found.at];
  if (step === undefined || !lanes.some((lane) => lane.cellId === place.cellId)) return lanes;
  return lanes.map((lane) => {
    const others = lane.steps.filter((one) => one.id !== stepId);
    if (lane.cellId !== place.cellId) return { ...lane, steps: others };
    const at = others.findIndex((one) => one.id === place.beforeStepId);
    const steps = others.toSpliced(at < 0 ? others.length : at, 0, step);
    return { ...lane, steps };
  });
}

/** Whether a place is the one where the step stands already. */
export function isSamePlace(
  lanes: readonly OrderedLane[],
  stepId: string,
  { cellId, beforeStepId }: Place,
): boolean {
  const found = find(lanes, stepId);
  if (found?.lane.cellId !== cellId) return false;
  const next = found.lane.steps[found.at + 1]?.id ?? null;
  return beforeStepId === stepId || beforeStepId === next;
}
