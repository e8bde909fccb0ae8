import { z } from 'zod';
import { access } from './access.js';
import { cellKinds } from './cells.js';
import { firstPieceResults } from './first-piece.js';
import { FitAnswer, ReadyLine } from './fit.js';
import { JobChange } from './job-changes.js';
import { jobStepStates } from './orders.js';
import { SetUp, Weld } from './revisions.js';
import { WpsRanges } from './procedures.js';
import { defineRoute } from './route.js';
import { Count, Day, Id, Instant, Reason, Version } from './values.js';

export const Holder = z.object({
  runId: Id,
  personId: Id,
  personCode: z.string(),
  personName: z.string(),
  since: Instant,
});

export const QueuedStep = z.object({
  id: Id,
  version: Version,
  jobId: Id,
  jobNumber: z.number().int(),
  stepNumber: z.number().int(),
  stepName: z.string(),
  partNumber: z.string(),
  partName: z.string(),
  revision: z.string(),
  customerName: z.string(),
  quantity: z.number().int(),
  goodCount: Count,
  scrapCount: Count,
  quarantinedCount: Count,
  dueOn: Day,
  /** The day by which it is to be welded: the due day, less the days that others need for what they do after it. */
  weldBy: Day,
  state: z.enum(jobStepStates),
  plannedMin: z.number(),
  setUpMin: z.number(),
  kitComplete: z.boolean(),
  released: z.boolean(),
  coded: z.boolean(),
  late: z.boolean(),
  wpsNumber: z.string().nullable(),
  holder: Holder.nullable(),
});
export type QueuedStep = z.infer<typeof QueuedStep>;

export const Lane = z.object({
  cellId: Id,
  cellCode: z.string(),
  cellName: z.string(),
  cellKind: z.enum(cellKinds),
  queuedMin: z.number(),
  steps: z.array(QueuedStep),
});
export type Lane = z.infer<typeof Lane>;
/** What a job still lacks: how many assignments are open, the day by which all are due, and how many are past theirs. */
export const OpenOfJob = z.object({
  jobId: Id,
  open: z.number().int(),
  until: Day,
  overdue: z.number().int(),
});
export type OpenOfJob = z.infer<typeof OpenOfJob>;
export const Board = z.object({
  asOf: Instant,
  lastSeq: z.number().int(),
  lanes: z.array(Lane),
  toClear: z.array(OpenOfJob),
});
export type Board = z.infer<typeof Board>;

/** Everything the welder sees before pulling: the few numbers to dial, the procedure, the answer with its reasons. */
export const SetUpCard = z.object({
  step: QueuedStep,
  welds: z.array(Weld),
  setUp: SetUp.nullable(),
  /** The newest first-piece check with this cell, set-up and procedure; null while there is none. */
  firstPiece: z.enum(firstPieceResults).nullable(),
  instructions: z.string(),
  extraction: z.string(),
  wps: z
    .object({
      id: Id,
      number: z.string(),
      revision: z.number().int(),
      title: z.string(),
      ranges: WpsRanges,
    })
    .nullable(),
  fit: FitAnswer,
  ready: z.array(ReadyLine),
  figures: z.object({
    arcSPerPart: z.number().nullable(),
    cycleS: z.number().nullable(),
    heatInputKjMm: z.number().nullable(),
    throatFromSettingsMm: z.number().nullable(),
    wireKgBatch: z.number().nullable(),
    gasLBatch: z.number().nullable(),
    feederKg: z.number().nullable(),
    partsFromFeeder: z.number().int().nullable(),
  }),
  recentReadings: z.array(
    z.object({
      at: Instant,
      currentA: z.number().nullable(),
      voltageV: z.number().nullable(),
      wireSpeedMMin: z.number().nullable(),
      travelMmMin: z.number().nullable(),
    }),
  ),
});
export type SetUpCard = z.infer<typeof SetUpCard>;

export const CellView = z.object({
  asOf: Instant,
  lane: Lane,
  /** The first ready step, or null with the reasons in `passedOver`. */
  next: SetUpCard.nullable(),
  held: SetUpCard.nullable(),
  /** Changes of the held and the next job that nobody has acknowledged here yet. */
  changes: z.array(JobChange),
  passedOver: z.array(
    z.object({
      jobStepId: Id,
      jobNumber: z.number().int(),
      partNumber: z.string(),
      text: z.string(),
    }),
  ),
});
export type CellView = z.infer<typeof CellView>;

const area = 'queue';
const StepParams = z.object({ jobStepId: Id });
export const queue = {
  board: defineRoute({
    id: 'board',
    area,
    method: 'GET',
    path: '/api/board',
    summary: 'The run queues of all cells',
    access: access.tabletOrPerson,
    reply: Board,
    refusals: [],
  }),
  cell: defineRoute({
    id: 'cellView',
    area,
    method: 'GET',
    path: '/api/cells/:cellId/view',
    summary: 'What is held, what is next and why, at one cell',
    access: access.tabletOrPerson,
    params: z.object({ cellId: Id }),
    reply: CellView,
    refusals: ['NOT_FOUND'],
  }),
  card: defineRoute({
    id: 'setUpCard',
    area,
    method: 'GET',
    path: '/api/job-steps/:jobStepId/card',
    summary: 'Set-up card of one queued step with its fit answer',
    access: access.tabletOrPerson,
    params: StepParams,
    reply: SetUpCard,
    refusals: ['NOT_FOUND'],
  }),
  move: defineRoute({
    id: 'moveStep',
    area,
    method: 'POST',
    path: '/api/job-steps/:jobStepId/move',
    summary: 'Put a waiting step elsewhere: before another step, or at the end of a cell',
    access: access.planning,
    params: StepParams,
    body: z.object({
      cellId: Id,
      beforeStepId: Id.nullable(),
      expectedVersion: Version,
      reason: Reason.nullable().default(null),
    }),
    reply: QueuedStep,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
};
