import { z } from 'zod';
import { access } from './access.js';
import { FitLine, fitResults } from './fit.js';
import { defineRoute } from './route.js';
import { Count, Id, Instant, text } from './values.js';

/** What can be changed at the cell during a run, besides the program. */
export const settingVariables = [
  'currentA',
  'voltageV',
  'wireSpeedMMin',
  'travelMmMin',
  'gasFlowLMin',
  'contactTipMm',
  'preheatC',
] as const;
export type SettingVariable = (typeof settingVariables)[number];

/** One change during a run: from, to and why. It is never changed afterwards. */
export const RunChange = z.object({
  id: Id,
  at: Instant,
  variable: z.enum([...settingVariables, 'programRevision']),
  from: z.string().nullable(),
  to: z.string(),
  why: z.string(),
  /** All settings after the change against the procedure of the run. */
  result: z.enum(fitResults),
  /** Good parts of the step when it was made. */
  afterPart: Count,
  personCode: z.string(),
});
export type RunChange = z.infer<typeof RunChange>;

/** What the shop knows of a step at its cell from the last good run, and what is different now. */
export const SetUpMemory = z.object({
  lastGood: z
    .object({
      jobNumber: z.number().int(),
      quantity: z.number().int(),
      frozenAt: Instant,
      frozenBy: z.string(),
      wpsLabel: z.string().nullable(),
    })
    .nullable(),
  /** The changes of that run: what the kept set-up came from, and why. */
  changedThen: z.array(RunChange),
  differs: z.array(z.string()),
  /** The changes of this job so far. */
  changed: z.array(RunChange),
  programAtStart: z.string().nullable(),
  programAtClose: z.string().nullable(),
  closedOut: z.boolean(),
});
export type SetUpMemory = z.infer<typeof SetUpMemory>;

/** A robot's tool point: knocked or checked, and what was made since it was last known to be good. */
export const ToolPoint = z.object({
  cellCode: z.string(),
  /** True until a check after the last knock was good. */
  open: z.boolean(),
  knock: z.object({ at: Instant, personCode: z.string(), note: z.string() }).nullable(),
  lastGoodCheck: z.object({ at: Instant, personCode: z.string() }).nullable(),
  /** Parts counted since the last good check; since ever where none is on file. */
  partsSince: z.array(
    z.object({
      jobNumber: z.number().int(),
      partNumber: z.string(),
      good: Count,
      rework: Count,
      scrap: Count,
      from: Instant,
      to: Instant,
    }),
  ),
});
export type ToolPoint = z.infer<typeof ToolPoint>;

const area = 'runs';
const RunParams = z.object({ runId: Id });
const CellParams = z.object({ cellId: Id });
const Why = text(300, 3);
const ProgramRevision = text(20);

export const setUpMemory = {
  memory: defineRoute({
    id: 'setUpMemory',
    area,
    method: 'GET',
    path: '/api/job-steps/:jobStepId/memory',
    summary: 'What the last good run of a step kept, and what differs now',
    access: access.tabletOrPerson,
    params: z.object({ jobStepId: Id }),
    reply: SetUpMemory,
    refusals: ['NOT_FOUND'],
  }),
  change: defineRoute({
    id: 'changeSetting',
    area,
    method: 'POST',
    path: '/api/runs/:runId/changes',
    summary:
      'Record a changed setting, from, to and why; stored as typed and judged against the procedure',
    access: access.cell,
    params: RunParams,
    body: z.object({
      variable: z.enum(settingVariables),
      to: z.number('must be a number').min(-60).max(20_000),
      why: Why,
    }),
    reply: z.object({ change: RunChange, lines: z.array(FitLine), words: z.array(z.string()) }),
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  program: defineRoute({
    id: 'programAtStart',
    area,
    method: 'POST',
    path: '/api/runs/:runId/program',
    summary:
      'Say which program revision the robot has loaded at the start; a difference needs a note',
    access: access.cell,
    params: RunParams,
    body: z.object({ revision: ProgramRevision, note: Why.nullable().default(null) }),
    reply: z.object({ words: z.array(z.string()) }),
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_REASON'],
  }),
  closeOut: defineRoute({
    id: 'closeOutRun',
    area,
    method: 'POST',
    path: '/api/runs/:runId/close-out',
    summary:
      'Before a batch is put down: program revision, where the fixture goes, what to watch out for',
    access: access.cell,
    params: RunParams,
    body: z.object({
      programRevision: ProgramRevision.nullable().default(null),
      programNote: Why.nullable().default(null),
      fixture: z
        .object({ place: text(40), condition: z.enum(['good', 'repair', 'missing']) })
        .nullable()
        .default(null),
      /** Null keeps the lines of the set-up. */
      watchOuts: z.array(text(200)).max(3, 'must be three lines or fewer').nullable().default(null),
    }),
    reply: z.object({ words: z.array(z.string()) }),
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_REASON'],
  }),
  toolPoint: defineRoute({
    id: 'toolPoint',
    area,
    method: 'GET',
    path: '/api/cells/:cellId/tool-point',
    summary: 'Whether the tool point of a robot was knocked, and the parts since it was last good',
    access: access.tabletOrPerson,
    params: CellParams,
    reply: ToolPoint,
    refusals: ['NOT_FOUND'],
  }),
  knock: defineRoute({
    id: 'knock',
    area,
    method: 'POST',
    path: '/api/cells/:cellId/knocks',
    summary:
      'Say that the torch was knocked or its neck changed: no good part counts before a check',
    access: access.cell,
    params: CellParams,
    body: z.object({ note: text(300, 0).default('') }),
    reply: ToolPoint,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  checkToolPoint: defineRoute({
    id: 'checkToolPoint',
    area,
    method: 'POST',
    path: '/api/cells/:cellId/tool-point-checks',
    summary: 'Record a check of the tool point',
    access: access.cell,
    params: CellParams,
    body: z.object({ good: z.boolean(), note: text(300, 0).default('') }),
    reply: ToolPoint,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
};
