import { z } from 'zod';
import { access } from './access.js';
import { firstPieceResults } from './first-piece.js';
import { FitLine, fitResults } from './fit.js';
import { SetUpCard } from './queue.js';
import { defineRoute } from './route.js';
import { StartDifference, StartSaid, startPoints } from './run-start.js';
import {
  Count,
  CurrentA,
  Id,
  Instant,
  TemperatureC,
  text,
  TravelMmMin,
  Version,
  VoltageV,
  WireSpeedMMin,
} from './values.js';

/** Why the arc is off; the lost hours of the week are told apart by these. */
export const stopCauses = [
  'setUp',
  'waitingParts',
  'waitingProgram',
  'waitingInspection',
  'waitingPerson',
  'fault',
  'rework',
  'break',
] as const;

export const Stop = z.object({
  id: Id,
  version: Version,
  cause: z.enum(stopCauses),
  note: z.string(),
  startedAt: Instant,
  endedAt: Instant.nullable(),
});
export const Reading = z.object({
  id: Id,
  at: Instant,
  happenedAt: Instant,
  weldNumber: z.number().int().nullable(),
  currentA: z.number().nullable(),
  voltageV: z.number().nullable(),
  wireSpeedMMin: z.number().nullable(),
  travelMmMin: z.number().nullable(),
  preheatC: z.number().nullable(),
  interpassC: z.number().nullable(),
  instrument: z.string().nullable(),
  place: z.string().nullable(),
  result: z.enum(fitResults),
  personCode: z.string(),
});
export const Run = z.object({
  id: Id,
  version: Version,
  jobStepId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  cellId: Id,
  cellCode: z.string(),
  personId: Id,
  personCode: z.string(),
  personName: z.string(),
  wpsLabel: z.string().nullable(),
  startedAt: Instant,
  endedAt: Instant.nullable(),
  quantity: z.number().int(),
  stepGoodCount: Count,
  /** Parts of the step under an open NCR: neither good nor scrap. */
  stepQuarantinedCount: Count,
  /** The newest check made with this cell, set-up and procedure; null while there is none. */
  firstPiece: z.enum(firstPieceResults).nullable(),
  goodCount: Count,
  reworkCount: Count,
  scrapCount: Count,
  setUpMin: z.number(),
  arcS: z.number(),
  arcSource: z.enum(['counted', 'typed', 'counter']),
  /** What whoever goes on should know, a line for each note. */
  handOverNote: z.string().nullable(),
  /** False for runs that began before the start was asked about. */
  startAsked: z.boolean(),
  /** Said last in this run, or by whoever handed it over; null until somebody has. */
  start: StartSaid.nullable(),
  stops: z.array(Stop),
  readings: z.array(Reading),
});
export type Run = z.infer<typeof Run>;

/** When it happened at the cell; the server adds its own time and keeps both. */
const HappenedAt = Instant.nullable().default(null);
const RunParams = z.object({ runId: Id });
const ReadingInput = z
  .object({
    weldNumber: z.number().int().min(1).max(999).nullable().default(null),
    currentA: CurrentA.nullable().default(null),
    voltageV: VoltageV.nullable().default(null),
    wireSpeedMMin: WireSpeedMMin.nullable().default(null),
    travelMmMin: TravelMmMin.nullable().default(null),
    preheatC: TemperatureC.nullable().default(null),
    interpassC: TemperatureC.nullable().default(null),
    instrument: text(40).nullable().default(null),
    place: text(80).nullable().default(null),
    happenedAt: HappenedAt,
  })
  .refine(
    (r) =>
      [r.currentA, r.voltageV, r.wireSpeedMMin, r.travelMmMin, r.preheatC, r.interpassC].some(
        (v) => v !== null,
      ),
    'must hold at least one value',
  );

const area = 'runs';
export const runs = {
  pull: defineRoute({
    id: 'pull',
    area,
    method: 'POST',
    path: '/api/cells/:cellId/pull',
    summary: 'Take the next ready step, or the one named; exactly one person holds it',
    access: access.cell,
    params: z.object({ cellId: Id }),
    body: z.object({ jobStepId: Id.nullable().default(null) }),
    reply: z.object({ run: Run, card: SetUpCard }),
    refusals: ['NOT_FOUND', 'TAKEN', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  get: defineRoute({
    id: 'getRun',
    area,
    method: 'GET',
    path: '/api/runs/:runId',
    summary: 'One run with counts, stops and readings',
    access: access.tabletOrPerson,
    params: RunParams,
    reply: Run,
    refusals: ['NOT_FOUND'],
  }),
  ofJob: defineRoute({
    id: 'listRunsOfJob',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId/runs',
    summary: 'All runs of a job',
    access: access.signedIn,
    params: z.object({ jobId: Id }),
    reply: z.object({ runs: z.array(Run) }),
    refusals: ['NOT_FOUND'],
  }),
  start: defineRoute({
    id: 'startRun',
    area,
    method: 'POST',
    path: '/api/runs/:runId/as-shown',
    summary:
      'Confirm before the first count what stands at the cell, and which program revision the robot has loaded; what is not as shown goes to the office',
    access: access.cell,
    params: RunParams,
    body: z.object({
      differences: z
        .array(StartDifference)
        .max(startPoints.length)
        .refine(
          (all) => new Set(all.map(({ point }) => point)).size === all.length,
          'must name each point once',
        )
        .default([]),
      /** Needed where the set-up names a program; a revision that is not the known one needs a note. */
      program: z
        .object({ revision: text(20), note: text(300, 3).nullable().default(null) })
        .nullable()
        .default(null),
      happenedAt: HappenedAt,
    }),
    reply: z.object({ run: Run, words: z.array(z.string()) }),
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_REASON'],
  }),
  count: defineRoute({
    id: 'count',
    area,
    method: 'POST',
    path: '/api/runs/:runId/counts',
    summary: 'Count parts made: good, to rework, scrap',
    access: access.cell,
    params: RunParams,
    body: z
      .object({
        good: Count.default(0),
        rework: Count.default(0),
        scrap: Count.default(0),
        beyondBatchConfirmed: z.boolean().default(false),
        happenedAt: HappenedAt,
      })
      .refine((c) => c.good + c.rework + c.scrap > 0, 'must count at least one part'),
    reply: Run,
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_CONFIRMATION', 'DOES_NOT_FIT'],
  }),
  stop: defineRoute({
    id: 'stopRun',
    area,
    method: 'POST',
    path: '/api/runs/:runId/stops',
    summary: 'Say that work stands still, and why',
    access: access.cell,
    params: RunParams,
    body: z.object({
      cause: z.enum(stopCauses),
      note: text(300, 0).default(''),
      happenedAt: HappenedAt,
    }),
    reply: Run,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  resume: defineRoute({
    id: 'resumeRun',
    area,
    method: 'POST',
    path: '/api/runs/:runId/resume',
    summary: 'End the open stop',
    access: access.cell,
    params: RunParams,
    body: z.object({ happenedAt: HappenedAt }),
    reply: Run,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  read: defineRoute({
    id: 'addReading',
    area,
    method: 'POST',
    path: '/api/runs/:runId/readings',
    summary: 'Record measured values; stored as typed and answered against the procedure',
    access: access.cell,
    params: RunParams,
    body: ReadingInput,
    reply: z.object({ run: Run, lines: z.array(FitLine), words: z.array(z.string()) }),
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  note: defineRoute({
    id: 'noteRun',
    area,
    method: 'POST',
    path: '/api/runs/:runId/notes',
    summary: 'Write down what whoever goes on should know; added to the note of the run',
    access: access.cell,
    params: RunParams,
    body: z.object({ text: text(300), happenedAt: HappenedAt }),
    reply: Run,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  handOver: defineRoute({
    id: 'handOver',
    area,
    method: 'POST',
    path: '/api/runs/:runId/hand-over',
    summary: 'Give the step to another person at the same cell',
    access: access.cell,
    params: RunParams,
    body: z.object({ toPersonId: Id, note: text(300, 3) }),
    reply: z.object({ run: Run, card: SetUpCard }),
    refusals: ['NOT_FOUND', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  putDown: defineRoute({
    id: 'putDown',
    area,
    method: 'POST',
    path: '/api/runs/:runId/put-down',
    summary: 'Stop holding the step; done when the batch is complete',
    access: access.cell,
    params: RunParams,
    body: z.object({
      setUpMin: z.number().min(0).max(10_000).nullable().default(null),
      arcMinTyped: z.number().min(0).max(10_000).nullable().default(null),
      note: text(300, 0).default(''),
      batchComplete: z.boolean().default(false),
      happenedAt: HappenedAt,
    }),
    reply: Run,
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_CONFIRMATION', 'NEEDS_REASON'],
  }),
};
export type ReadingInput = z.infer<typeof ReadingInput>;
