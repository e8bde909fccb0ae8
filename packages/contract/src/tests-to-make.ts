import { z } from 'zod';
import { access } from './access.js';
import { mechanisations } from './cells.js';
import { SuggestedRange } from './qualification.js';
import { defineRoute } from './route.js';
import { Day, Id, text } from './values.js';

export const testsFor = ['procedures', 'people'] as const;
/** Welds that nothing covers, or also those that hang on one procedure or one person alone. */
export const gaps = ['none', 'one'] as const;
export const demands = ['demanded', 'notDemanded'] as const;
export const runCounts = ['unknown', 'single', 'multi'] as const;

const Code = z.object({ code: z.string(), edition: z.string() });

const TestToMake = z.object({
  process: z.string(),
  mechanisation: z.enum(mechanisations),
  jointType: z.string(),
  position: z.string(),
  /** Group and name of the metal of each part; empty where the code sets nothing by it. */
  materials: z.array(z.string()),
  thicknessMm: z.number().nullable(),
  throatMm: z.number().nullable(),
  /** The cell that an operator's certificate would be bound to. */
  unit: z.string().nullable(),
  /** What the code would give for it. */
  ranges: z.array(SuggestedRange),
  welds: z.array(z.string()),
  /** Open welds of the part that it holds, of all open ones of the part. */
  parts: z.array(
    z.object({ partId: Id, partNumber: z.string(), held: z.number().int(), of: z.number().int() }),
  ),
  jobs: z.array(
    z.object({
      jobId: Id,
      jobNumber: z.number().int(),
      partNumber: z.string(),
      dueOn: Day,
      /** Open welds of the job that it holds, of all open ones. */
      held: z.number().int(),
      of: z.number().int(),
    }),
  ),
});
export type TestToMake = z.infer<typeof TestToMake>;

/** Some of the tests, by their place in the list, and how good the choice is known to be. */
const TestChoice = z.object({
  tests: z.array(z.number().int()),
  welds: z.number().int(),
  /** No choice is better. */
  proven: z.boolean(),
  /** What no choice can beat: the fewest tests, or the most welds. */
  bound: z.number().int(),
});
export type TestChoice = z.infer<typeof TestChoice>;

export const TestsToMake = Code.extend({
  day: Day,
  for: z.enum(testsFor),
  /** What may be asked for. */
  codes: z.array(Code),
  /** Open welds: those that nothing covers, or too little. */
  open: z.number().int(),
  /** Every test of either choice. */
  tests: z.array(TestToMake),
  /** The fewest tests that hold every weld that can be held. */
  fewest: TestChoice,
  /** The most welds for the number of tests that was asked for. */
  best: TestChoice,
  notHeld: z.array(z.object({ weld: z.string(), variable: z.string(), words: z.string() })),
});
export type TestsToMake = z.infer<typeof TestsToMake>;

export const testsToMake = {
  find: defineRoute({
    id: 'testsToMake',
    area: 'qualification',
    method: 'GET',
    path: '/api/procedures/tests-that-pay',
    summary:
      'The fewest test pieces under one code that would hold the welds nobody covers, and the best few',
    access: access.oversight,
    query: z.object({
      for: z.enum(testsFor).default('procedures'),
      /** Left out, the first that there are rules for. */
      code: text(20).optional(),
      edition: text(10).optional(),
      gap: z.enum(gaps).default('none'),
      properties: z.enum(demands).default('demanded'),
      runs: z.enum(runCounts).default('unknown'),
      budget: z.coerce.number().int().min(1).max(50).default(3),
    }),
    reply: TestsToMake,
    refusals: ['NOT_NOW'],
  }),
};
