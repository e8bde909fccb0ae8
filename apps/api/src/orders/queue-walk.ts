import { queueTimes, type PlannedTime, type WorkingWindow } from '@tackboard/calc';

interface WalkStep {
  readonly id: string;
  readonly jobId: string;
  readonly stepNumber: number;
  readonly workMin: number;
}

export interface WalkLane {
  readonly cellId: string;
  readonly windows: readonly WorkingWindow[];
  readonly steps: readonly WalkStep[];
}

export type WalkTimes = ReadonlyMap<string, PlannedTime>;

/** A job has few steps; where they wait for each other in a circle the walk ends here, and says what it knows. */
const mostRounds = 12;
const unknown: PlannedTime = { startMin: null, finishMin: null };

/** When every queued step starts and finishes; a step starts no sooner than the one of its job before it ends. */
export function walkQueues(lanes: readonly WalkLane[], fromMin: number): WalkTimes {
  const times = new Map<string, PlannedTime>();
  const waitsFor = predecessors(lanes);
  for (let round = 0; round < mostRounds; round += 1) {
    let changed = false;
    for (const lane of lanes) {
      for (const [id, time] of laneTimes(lane, { fromMin, times, waitsFor })) {
        changed ||= times.get(id)?.finishMin !== time.finishMin;
        times.set(id, time);
      }
    }
    if (!changed) break;
  }
  return times;
}

function predecessors(lanes: readonly WalkLane[]): Map<string, string> {
  const jobs = new Map<string, WalkStep[]>();
  for (const step of lanes.flatMap(({ steps }) => steps)) {
    jobs.set(step.jobId, [...(jobs.get(step.jobId) ?? []), step]);
  }
  const waitsFor = new Map<string, string>();
  for (const steps of jobs.values()) {
    const inOrder = steps.toSorted((a, b) => a.stepNumber - b.stepNumber);
    inOrder.forEach(({ id }, at) => {
      const before = inOrder[at - 1];
      if (before !== undefined) waitsFor.set(id, before.id);
    });
  }
  return waitsFor;
}

function laneTimes(
  { windows, steps }: WalkLane,
  at: { fromMin: number; times: WalkTimes; waitsFor: ReadonlyMap<string, string> },
): (readonly [string, PlannedTime])[] {
  const walked = queueTimes({
    fromMin: at.fromMin,
    windows,
    steps: steps.map(({ id, workMin }) => {
      const finishMin = at.times.get(at.waitsFor.get(id) ?? '')?.finishMin ?? null;
      return { workMin, ...(finishMin === null ? {} : { notBeforeMin: finishMin }) };
    }),
  });
  return steps.map(({ id }, index) => [id, (walked.ok && walked.times[index]) || unknown]);
}

/** When the last step of each job ends; null where one of its steps has no end. */
export function jobFinishes(
  lanes: readonly WalkLane[],
  times: WalkTimes,
): Map<string, number | null> {
  const finishes = new Map<string, number | null>();
  for (const { id, jobId } of lanes.flatMap(({ steps }) => steps)) {
    const finishMin = times.get(id)?.finishMin ?? null;
    const sofar = finishes.get(jobId);
    const ended = sofar === undefined ? finishMin : latest(sofar, finishMin);
    finishes.set(jobId, ended);
  }
  return finishes;
}

function latest(one: number | null, other: number | null): number | null {
  return one === null || other === null ? null : Math.max(one, other);
}
