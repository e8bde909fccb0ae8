import { z } from 'zod';
import { defineRoute } from './route.js';
import { Day, Id } from './values.js';

export const lostCauses = [
  'handling',
  'setUp',
  'waitingParts',
  'waitingProgram',
  'waitingInspection',
  'waitingPerson',
  'fault',
  'rework',
  'noWork',
] as const;
/** Monday of an ISO 8601 week. */
const WeekQuery = z.object({ from: Day.optional() });

export const CellWeek = z.object({
  cellId: Id,
  cellCode: z.string(),
  cellName: z.string(),
  plannedH: z.number(),
  staffedH: z.number(),
  runningH: z.number(),
  arcH: z.number(),
  /** Null where the denominator is zero. */
  ofPlanned: z.number().nullable(),
  ofStaffed: z.number().nullable(),
  ofRunning: z.number().nullable(),
  lostH: z.object(
    Object.fromEntries(lostCauses.map((cause) => [cause, z.number()])) as Record<
      (typeof lostCauses)[number],
      z.ZodNumber
    >,
  ),
  overtimeH: z.number(),
  goodCount: z.number().int(),
  reworkCount: z.number().int(),
  scrapCount: z.number().int(),
  runCount: z.number().int(),
  arcSources: z.object({ countedH: z.number(), typedH: z.number(), counterH: z.number() }),
});
export type CellWeek = z.infer<typeof CellWeek>;
export const Week = z.object({
  from: Day,
  to: Day,
  label: z.string(),
  complete: z.boolean(),
  cells: z.array(CellWeek),
  lateJobs: z.number().int(),
  doneJobs: z.number().int(),
  onTimeJobs: z.number().int(),
  entryMedianS: z.number().nullable(),
});
export type Week = z.infer<typeof Week>;

const area = 'week';
export const week = {
  get: defineRoute({
    id: 'getWeek',
    area,
    method: 'GET',
    path: '/api/week',
    summary:
      'Arc time per cell over planned, staffed and running time, and the lost hours by cause',
    access: { kind: 'person', roles: ['manager', 'office', 'qa'] },
    query: WeekQuery,
    reply: Week,
    refusals: [],
  }),
};
/** The same table as CSV: `GET /api/week.csv`, with the access rule of `week.get`. */
export const weekCsv = {
  path: '/api/week.csv',
  access: week.get.access,
  query: WeekQuery,
} as const;
