import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Day, Id } from './values.js';

export const capacityWeeks = 8;

/** Over: more is due by then than the hours hold; noHours: the calendar is empty and work is due; closed: none is. */
const loadStates = ['within', 'over', 'noHours', 'closed'] as const;

export const WeekLoad = z.object({
  from: Day,
  label: z.string(),
  /** Calendar minutes times the planning factor; of the first week only what is left of it. */
  openMin: z.number(),
  /** What the queue fills of them, walked in its order. */
  queuedMin: z.number(),
  dueMin: z.number(),
  /** Due before, and more than the weeks before could hold. */
  carriedMin: z.number(),
  overMin: z.number(),
  /** Due and carried over open; null where nothing is open. */
  share: z.number().nullable(),
  state: z.enum(loadStates),
  /** What is over and the jobs that do it; null where nothing is. */
  words: z.string().nullable(),
});
export type WeekLoad = z.infer<typeof WeekLoad>;

export const CellLoad = z.object({
  cellId: Id,
  cellCode: z.string(),
  cellName: z.string(),
  weeks: z.array(WeekLoad),
  /** Queued behind the last week, or without any hours. */
  laterMin: z.number(),
});
export type CellLoad = z.infer<typeof CellLoad>;

export const Shortage = z.object({
  itemId: Id,
  itemName: z.string(),
  unit: z.string(),
  neededAmount: z.number(),
  /** Loaded at the cells, and in store. */
  loadedAmount: z.number(),
  storedAmount: z.number(),
  shortAmount: z.number(),
  words: z.array(z.string()),
});
export type Shortage = z.infer<typeof Shortage>;

export const Capacity = z.object({
  from: Day,
  cells: z.array(CellLoad),
  consumables: z.array(Shortage),
  /** Steps of the queue whose wire and gas nobody can work out: no set-up is kept. */
  stepsUnknown: z.number().int(),
});
export type Capacity = z.infer<typeof Capacity>;

const taktStates = ['within', 'beyond', 'unknown'] as const;
export const CellTakt = z.object({
  cellId: Id,
  cellCode: z.string(),
  cellName: z.string(),
  demand: z.number().int(),
  openMin: z.number(),
  /** Null for a cell without hours. */
  taktS: z.number().nullable(),
  /** Planned time of a part without set-up; null where none is planned. */
  cycleS: z.number().nullable(),
  /** By how much the demand outruns the hours. */
  shortMin: z.number().nullable(),
  state: z.enum(taktStates),
});
export type CellTakt = z.infer<typeof CellTakt>;
export const Takt = z.object({
  family: z.string(),
  from: Day,
  to: Day,
  label: z.string(),
  /** Parts due in the week. */
  demand: z.number().int(),
  jobCount: z.number().int(),
  cells: z.array(CellTakt),
});
export type Takt = z.infer<typeof Takt>;

const area = 'capacity';
export const capacity = {
  get: defineRoute({
    id: 'getCapacity',
    area,
    method: 'GET',
    path: '/api/capacity',
    summary: `Load against capacity of each cell for ${capacityWeeks} weeks, and the consumables of the queue`,
    access: access.planning,
    reply: Capacity,
    refusals: [],
  }),
  takt: defineRoute({
    id: 'getTakt',
    area,
    method: 'GET',
    path: '/api/capacity/takt',
    summary: 'Takt beside planned cycle for the parts whose numbers begin alike, in one week',
    access: access.planning,
    query: z.object({
      /** How the part numbers begin. */
      family: z.string().trim().min(1).max(40),
      /** Any day of the week; this week where none is given. */
      week: Day.optional(),
    }),
    reply: Takt,
    refusals: [],
  }),
};
