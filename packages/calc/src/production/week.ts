import { bounds, firstRefusal, minutesPerHour } from '../quantities.js';
import { refused, type Refused, type Warning } from '../result.js';
import type { SourceId } from '../sources/index.js';

/** Causes that the cell records. */
export const recordedCauses = [
  'handling',
  'setUp',
  'waitingParts',
  'waitingProgram',
  'waitingInspection',
  'waitingPerson',
  'fault',
  'rework',
] as const;
type RecordedCause = (typeof recordedCauses)[number];

/** Where the hours without an arc went; `noWork` is what is left of the planned time. */
export type LostCause = RecordedCause | 'noWork';

export interface WeekInputs {
  plannedMin: number;
  staffedMin: number;
  runningMin: number;
  arcMin: number;
  /** Minutes by recorded cause; a cause that is left out counts as 0. */
  lost: { readonly [C in RecordedCause]?: number | undefined };
}

export interface WeekMeasures {
  ok: true;
  plannedH: number;
  staffedH: number;
  runningH: number;
  arcH: number;
  /** Arc time as a share of 1; null where the denominator is zero. */
  ofPlanned: number | null;
  ofStaffed: number | null;
  ofRunning: number | null;
  /** Sums to planned - arc, and to more by `overtimeH` where the recorded hours exceed the planned ones. */
  lostH: Record<LostCause, number>;
  overtimeH: number;
  overtimeMin: number;
  inputs: WeekInputs;
  sources: readonly SourceId[];
  warnings: readonly Warning[];
}

function share(part: number, whole: number): number | null {
  return whole === 0 ? null : part / whole;
}

/**
 * Arc time of a cell's week over planned, staffed and running time, and the lost hours by cause. All times in
 * min; refuses a negative or missing one. Arc time is our own measure; the words for the times follow
 * ISO 22400-2, from memory.
 */
export function weekMeasures(inputs: WeekInputs): WeekMeasures | Refused {
  const { plannedMin, staffedMin, runningMin, arcMin } = inputs;
  const refusal = firstRefusal([
    ['plannedMin', plannedMin, bounds.durationMin],
    ['staffedMin', staffedMin, bounds.durationMin],
    ['runningMin', runningMin, bounds.durationMin],
    ['arcMin', arcMin, bounds.durationMin],
    ...recordedCauses.map(
      (cause) => [`lost.${cause}`, inputs.lost[cause] ?? 0, bounds.durationMin] as const,
    ),
  ]);
  if (refusal) return refused(refusal);
  const { lostMin, overtimeMin } = closeWeek(inputs);
  const lostH = Object.fromEntries(
    Object.entries(lostMin).map(([cause, minutes]) => [cause, minutes / minutesPerHour]),
  ) as Record<LostCause, number>;
  return {
    ok: true,
    plannedH: plannedMin / minutesPerHour,
    staffedH: staffedMin / minutesPerHour,
    runningH: runningMin / minutesPerHour,
    arcH: arcMin / minutesPerHour,
    ofPlanned: share(arcMin, plannedMin),
    ofStaffed: share(arcMin, staffedMin),
    ofRunning: share(arcMin, runningMin),
    lostH,
    overtimeH: overtimeMin / minutesPerHour,
    overtimeMin,
    inputs,
    sources: ['arcShare', 'iso22400'],
    warnings: arcMin > runningMin ? [{ code: 'arcAboveRunning', given: arcMin }] : [],
  };
}

/** What the recorded minutes leave of the plan is time without work; what they exceed it by is overtime. */
function closeWeek({ plannedMin, arcMin, lost }: WeekInputs) {
  const recorded = Object.fromEntries(
    recordedCauses.map((cause) => [cause, lost[cause] ?? 0]),
  ) as Record<RecordedCause, number>;
  const busyMin = Object.values(recorded).reduce((sum, minutes) => sum + minutes, arcMin);
  return {
    lostMin: { ...recorded, noWork: Math.max(0, plannedMin - busyMin) },
    overtimeMin: Math.max(0, busyMin - plannedMin),
  };
}
