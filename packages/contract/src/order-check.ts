import { z } from 'zod';
import { clearers } from './fit.js';
import { Day, Id, Instant } from './values.js';

/** What planned minutes rest on: the part's own runs, the sum of arc, air and load times, or the typed estimate. */
export const timeBases = ['history', 'calculation', 'typed'] as const;

export const PlannedTime = z.object({
  plannedMin: z.number(),
  basis: z.enum(timeBases),
  /** Past runs of the step that were measured. */
  runs: z.number().int(),
  /** Within which the middle four fifths of the past runs would lie; only where they are the basis. */
  lowMin: z.number().nullable(),
  highMin: z.number().nullable(),
});
export type PlannedTime = z.infer<typeof PlannedTime>;

export const readyTopics = [
  ...(['revision', 'procedure', 'fit', 'fixture', 'program'] as const),
  ...(['wire', 'gas', 'torch', 'people', 'cell', 'hours'] as const),
] as const;

export const ReadyNote = z.object({
  topic: z.enum(readyTopics),
  state: z.enum(['ok', 'check', 'stop', 'cannotSay']),
  text: z.string(),
  /** Who can clear it; null where nothing is to be cleared. */
  clearedBy: z.enum(clearers).nullable(),
});

/** What one customer loses by a place: all jobs of theirs that finish later than they would today. */
export const Displacement = z.object({
  customerName: z.string(),
  jobNumbers: z.array(z.number().int()),
  /** The longest delay of one of these jobs, minutes of the clock. */
  laterMin: z.number(),
  /** Jobs that finish in time today, and past their due date behind this place. */
  lateJobNumbers: z.array(z.number().int()),
});
export type Displacement = z.infer<typeof Displacement>;

export const Place = z.object({
  stepNumber: z.number().int(),
  cellId: Id,
  cellCode: z.string(),
  /** The queued step to stand before; null is the end of the run queue. */
  beforeStepId: Id.nullable(),
  beforeJobNumber: z.number().int().nullable(),
  setUpKept: z.boolean(),
  startAt: Instant.nullable(),
  finishAt: Instant.nullable(),
  finishOn: Day.nullable(),
  /** Minutes of the clock from the finish to the end of the due day; below 0 where it is missed. */
  spareMin: z.number().nullable(),
  displaces: z.array(Displacement),
  chosen: z.boolean(),
});
export type Place = z.infer<typeof Place>;

export const Share = z.object({
  /** Whose past jobs were counted. */
  of: z.enum(['part', 'cell']),
  jobs: z.number().int(),
  inTime: z.number().int(),
});

/** When the batch can be promised, with what is sure and what is not. */
export const PromiseAnswer = z.object({
  finishAt: Instant.nullable(),
  /** Median of past jobs of the part, from the last run to the end of the job; null before there are three. */
  inspectionMin: z.number().nullable(),
  readyAt: Instant.nullable(),
  spareMin: z.number().nullable(),
  /** Past jobs that were finished by their due date; null before there are three. */
  chance: Share.nullable(),
  text: z.string(),
});
export type PromiseAnswer = z.infer<typeof PromiseAnswer>;

export const RobotOrBooth = z.object({
  robotMin: z.number().nullable(),
  boothMin: z.number().nullable(),
  breakEvenParts: z.number().int().nullable(),
  better: z.enum(['robot', 'booth', 'same', 'cannotSay']),
  /** Whether only the minutes of programming are missing to say it. */
  asksProgramming: z.boolean(),
  /** Share of parts with the same expectation that came back within twelve months; null where nobody knows. */
  chanceOfReturn: z.number().nullable(),
  expectedBatches: z.number(),
  text: z.string(),
});
export type RobotOrBooth = z.infer<typeof RobotOrBooth>;

/** To whom something that is missing goes when the line is confirmed, and by which day. */
export const ProposedAssignment = z.object({
  stepNumber: z.number().int().nullable(),
  topic: z.enum(readyTopics),
  personCode: z.string(),
  personName: z.string(),
  dueOn: Day,
});
export type ProposedAssignment = z.infer<typeof ProposedAssignment>;

export const OrderCheck = z.object({
  revisionState: z.enum(['unchanged', 'different', 'firstTime']),
  lastMade: z.string().nullable(),
  notes: z.array(ReadyNote),
  assignments: z.array(ProposedAssignment),
  cells: z.array(
    PlannedTime.extend({
      stepNumber: z.number().int(),
      cellId: Id,
      cellCode: z.string(),
      queuedMin: z.number(),
      finishOn: Day.nullable(),
    }),
  ),
  places: z.array(Place),
  promise: PromiseAnswer,
  robotOrBooth: RobotOrBooth.nullable(),
  questions: z.array(z.object({ field: z.string(), text: z.string() })),
  dueEcho: z.string(),
});
export type OrderCheck = z.infer<typeof OrderCheck>;
