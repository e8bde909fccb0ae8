import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import {
  changesOf,
  Code,
  CurrentA,
  Day,
  DurationMin,
  Id,
  Instant,
  quantity,
  Reason,
  text,
  Version,
} from './values.js';

export const cellKinds = ['booth', 'robot'] as const;
export const mechanisations = [
  'manual',
  'partlyMechanised',
  'fullyMechanised',
  'automatic',
] as const;
export const travelUnits = ['mm/min', 'cm/min', 'in/min'] as const;

const Percent = quantity(1, 100);
const WallTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time of day, written HH:MM');

export const Shift = z.object({
  weekday: z.number().int().min(1).max(7),
  startTime: WallTime,
  endTime: WallTime,
  breakMin: z.number().int().min(0).max(480),
  staffed: z.boolean().default(true),
});
export const DayChange = z.object({
  day: Day,
  kind: z.enum(['closed', 'overtime', 'down']),
  minutes: DurationMin,
  reason: text(200),
});
export const Calendar = z.object({
  shifts: z.array(Shift).max(42),
  dayChanges: z.array(DayChange).max(1000),
});

const CellInput = z.object({
  code: Code,
  name: text(80),
  kind: z.enum(cellKinds),
  processes: z.array(text(10)).min(1).max(10),
  mechanisation: z.enum(mechanisations),
  stations: z.number().int().min(1).max(2).default(1),
  sourceRatingA: CurrentA.nullable().default(null),
  sourceRatingPct: Percent.nullable().default(null),
  torchRatingA: CurrentA.nullable().default(null),
  torchRatingPct: Percent.nullable().default(null),
  torchMaxA: CurrentA.nullable().default(null),
  torchRatingGas: text(20).nullable().default(null),
  reachMm: quantity(1, 20_000).nullable().default(null),
  loadKg: quantity(1, 20_000).nullable().default(null),
  travelUnit: z.enum(travelUnits).default('mm/min'),
  planningFactor: quantity(0.1, 1).default(0.8),
  gasLossFactor: quantity(1, 10).default(1),
  extraction: text(200, 0).default(''),
});
export const Cell = CellInput.extend({
  id: Id,
  version: Version,
  active: z.boolean(),
  calendar: Calendar,
});
export type Cell = z.infer<typeof Cell>;

/** A span of the calendar in which a cell works; holidays, overtime and shifts are taken in. */
const WorkingWindow = z.object({
  from: Instant,
  to: Instant,
  /**
   * Job minutes per minute of the clock: breaks and downtime, whose hours the calendar does not name, thin the
   * window out, and so does the planning factor.
   */
  share: z.number(),
  staffed: z.boolean(),
});
export const CellHours = z.object({
  cellId: Id,
  windows: z.array(WorkingWindow),
  /** Why a cell works less than its shifts say. */
  losses: z.array(DayChange),
});
export type CellHours = z.infer<typeof CellHours>;

const CellParams = z.object({ cellId: Id });
const area = 'cells';
export const cells = {
  list: defineRoute({
    id: 'listCells',
    area,
    method: 'GET',
    path: '/api/cells',
    summary: 'All cells with ratings and calendars',
    access: access.tabletOrPerson,
    reply: z.object({ cells: z.array(Cell) }),
    refusals: [],
  }),
  hours: defineRoute({
    id: 'workingHours',
    area,
    method: 'GET',
    path: '/api/working-hours',
    summary: 'When each cell works, from now or a given instant on',
    access: access.tabletOrPerson,
    query: z.object({
      from: Instant.optional(),
      days: z.coerce.number().int().min(1).max(366).default(28),
    }),
    reply: z.object({ from: Instant, to: Instant, cells: z.array(CellHours) }),
    refusals: [],
  }),
  add: defineRoute({
    id: 'addCell',
    area,
    method: 'POST',
    path: '/api/cells',
    summary: 'Add a cell',
    access: access.manager,
    body: CellInput,
    reply: Cell,
    refusals: ['DUPLICATE'],
  }),
  edit: defineRoute({
    id: 'editCell',
    area,
    method: 'PATCH',
    path: '/api/cells/:cellId',
    summary: 'Change a cell',
    access: access.manager,
    params: CellParams,
    body: changesOf(CellInput).extend({ expectedVersion: Version, active: z.boolean().optional() }),
    reply: Cell,
    refusals: ['NOT_FOUND', 'STALE', 'DUPLICATE'],
  }),
  setCalendar: defineRoute({
    id: 'setCalendar',
    area,
    method: 'PUT',
    path: '/api/cells/:cellId/calendar',
    summary: 'Replace the calendar of a cell',
    access: access.manager,
    params: CellParams,
    body: Calendar.extend({ expectedVersion: Version, reason: Reason.nullable().default(null) }),
    reply: Cell,
    refusals: ['NOT_FOUND', 'STALE'],
  }),
};
