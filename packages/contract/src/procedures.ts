import { z } from 'zod';
import { access } from './access.js';
import { mechanisations } from './cells.js';
import { defineRoute } from './route.js';
import {
  Code,
  Day,
  Id,
  Instant,
  quantity,
  Range,
  rangeUpTo,
  Reason,
  TemperatureC,
  text,
  Version,
} from './values.js';
import { noWpsDetails, WpsComparison, WpsDetails } from './wps-details.js';

const Listed = z.array(text(30)).max(40);

/** The variables of a procedure with their ranges; null where the record says nothing. */
export const WpsRanges = z.object({
  process: text(10),
  mechanisations: z.array(z.enum(mechanisations)).min(1),
  materialGroups: Listed,
  jointTypes: Listed,
  positions: Listed,
  fillers: Listed,
  gases: Listed,
  /** Specified minimum yield of the parts. */
  yieldMPa: Range.nullable().optional(),
  thicknessMm: Range.nullable(),
  throatMm: Range.nullable(),
  wireDiameterMm: Range.nullable(),
  currentA: Range.nullable(),
  voltageV: Range.nullable(),
  wireSpeedMMin: Range.nullable(),
  travelMmMin: Range.nullable(),
  heatInputKjMm: Range.nullable(),
  heatInputBasis: z.enum(['heatInput', 'arcEnergy']),
  preheatMinC: TemperatureC.nullable(),
  interpassMaxC: TemperatureC.nullable(),
});
export type WpsRanges = z.infer<typeof WpsRanges>;

/** As they are typed: what was stored before these bounds still reads. */
const RangesTyped = WpsRanges.extend({
  yieldMPa: rangeUpTo(2_000, 'MPa').nullable().optional(),
  thicknessMm: rangeUpTo(500, 'mm').nullable(),
  throatMm: rangeUpTo(100, 'mm').nullable(),
  wireDiameterMm: rangeUpTo(10, 'mm').nullable(),
  currentA: rangeUpTo(2_000, 'A').nullable(),
  voltageV: rangeUpTo(500, 'V').nullable(),
  wireSpeedMMin: rangeUpTo(100, 'm/min').nullable(),
  travelMmMin: rangeUpTo(20_000, 'mm/min').nullable(),
  heatInputKjMm: rangeUpTo(100, 'kJ/mm').nullable(),
});

/** A test piece; what range rules ask beyond its measures is left out where the record does not say. */
export const TestPiece = z.object({
  jointType: text(20),
  thicknessMm: quantity(0.1, 500),
  diameterMm: quantity(1, 5000).nullable(),
  material: text(60),
  materialGroup: text(10),
  yieldMPa: quantity(1, 2000).nullable(),
  throatMm: quantity(0.1, 100).nullable(),
  position: text(10),
  runs: z.enum(['single', 'multi']),
  sides: z.enum(['one', 'both']),
  backing: text(60, 0),
  /** Whether it was welded on a backing, whatever that was made of. */
  backed: z.boolean().optional(),
  gouged: z.boolean().optional(),
  squareGroove: z.boolean().optional(),
  product: z.enum(['plate', 'pipe']).optional(),
  /** The other part, where it is of another material. */
  materialGroupB: text(10).optional(),
  yieldBMPa: quantity(1, 2000).optional(),
  depositedMm: quantity(0.1, 500).optional(),
  maxPassMm: quantity(0.1, 100).optional(),
  branchAngleDeg: quantity(1, 90).optional(),
  fillerGroup: text(20).optional(),
  currentType: text(20).optional(),
  co2Pct: quantity(0, 100).optional(),
  impactRequired: z.boolean().optional(),
  impactTested: z.boolean().optional(),
  hardnessRequired: z.boolean().optional(),
});
export const TestedValues = z.object({
  currentA: quantity(0.1, 2000).nullable(),
  voltageV: quantity(0.1, 500).nullable(),
  wireSpeedMMin: quantity(0.01, 100).nullable(),
  travelMmMin: quantity(0.1, 20_000).nullable(),
  heatInputKjMm: quantity(0.001, 100).nullable(),
  preheatC: TemperatureC.nullable(),
  interpassC: TemperatureC.nullable(),
  wireDiameterMm: quantity(0.1, 10).optional(),
  gasFlowLMin: quantity(0.1, 200).optional(),
});
const TestResult = z.object({
  test: text(60),
  outcome: z.enum(['passed', 'failed', 'notRequired']),
  note: text(200, 0),
});

const WpqrInput = z.object({
  number: Code,
  code: text(60),
  edition: text(20),
  level: text(10).nullable(),
  process: text(10),
  mechanisation: z.enum(mechanisations),
  testedOn: Day,
  examiner: text(120),
  testPiece: TestPiece,
  testedValues: TestedValues,
  testResults: z.array(TestResult).max(30),
  filler: text(60),
  gas: text(60),
  transfer: text(30).nullable(),
  ranges: RangesTyped,
});
export const Wpqr = WpqrInput.extend({
  ranges: WpsRanges,
  id: Id,
  version: Version,
  wpsNumbers: z.array(z.string()),
});
export type Wpqr = z.infer<typeof Wpqr>;

export const wpsStates = ['draft', 'approved', 'superseded', 'withdrawn'] as const;
const JointDetail = z.object({
  description: text(200, 0),
  preparation: text(200, 0),
  runs: text(100, 0),
});

const WpsInput = z.object({
  title: text(120),
  code: text(60),
  ranges: RangesTyped,
  joint: JointDetail,
  details: WpsDetails.default(noWpsDetails),
  technique: text(2000, 0),
  wpqrIds: z.array(Id).max(20),
  changeNote: text(500, 0).default(''),
});
export const WpsSummary = z.object({
  id: Id,
  version: Version,
  number: z.string(),
  revision: z.number().int(),
  title: z.string(),
  state: z.enum(wpsStates),
  code: z.string(),
  process: z.string(),
  mechanisations: z.array(z.enum(mechanisations)),
  thicknessMm: Range.nullable(),
  positions: z.array(z.string()),
  approvedBy: z.string().nullable(),
  approvedAt: Instant.nullable(),
});
export const Breach = z.object({
  variable: z.string(),
  wpqrNumber: z.string(),
  wps: z.string(),
  allowed: z.string(),
});
export const Wps = WpsInput.extend({
  ranges: WpsRanges,
  id: Id,
  version: Version,
  number: z.string(),
  revision: z.number().int(),
  state: z.enum(wpsStates),
  writtenById: Id,
  writtenBy: z.string(),
  createdAt: Instant,
  approvedBy: z.string().nullable(),
  approvedAt: Instant.nullable(),
  supersededAt: Instant.nullable(),
  wpqrs: z.array(z.object({ id: Id, number: z.string() })),
  /** Where the procedure goes beyond every record that supports it. */
  breaches: z.array(Breach),
  /** Essential variables that have no range; a question to QA, not a breach. */
  comparisons: z.array(WpsComparison),
  revisions: z.array(z.object({ id: Id, revision: z.number().int(), state: z.enum(wpsStates) })),
  /** Part steps and waiting job steps that name this procedure. */
  usedBy: z.object({
    steps: z.number().int(),
    waitingJobs: z.array(
      z.object({ jobNumber: z.number().int(), partNumber: z.string(), cellCode: z.string() }),
    ),
  }),
});
export type Wps = z.infer<typeof Wps>;

const WpsParams = z.object({ wpsId: Id });
const area = 'procedures';
export const procedures = {
  wpqrs: defineRoute({
    id: 'listWpqrs',
    area,
    method: 'GET',
    path: '/api/wpqrs',
    summary: 'Procedure qualification records',
    access: access.signedIn,
    reply: z.object({ wpqrs: z.array(Wpqr) }),
    refusals: [],
  }),
  wpqr: defineRoute({
    id: 'getWpqr',
    area,
    method: 'GET',
    path: '/api/wpqrs/:wpqrId',
    summary: 'One procedure qualification record',
    access: access.signedIn,
    params: z.object({ wpqrId: Id }),
    reply: Wpqr,
    refusals: ['NOT_FOUND'],
  }),
  addWpqr: defineRoute({
    id: 'addWpqr',
    area,
    method: 'POST',
    path: '/api/wpqrs',
    summary: 'Record a procedure test with the range printed on it',
    access: access.qa,
    body: WpqrInput,
    reply: Wpqr,
    refusals: ['DUPLICATE'],
  }),
  editWpqr: defineRoute({
    id: 'editWpqr',
    area,
    method: 'PUT',
    path: '/api/wpqrs/:wpqrId',
    summary: 'Correct a record that no approved procedure rests on',
    access: access.qa,
    params: z.object({ wpqrId: Id }),
    body: WpqrInput.extend({ expectedVersion: Version, reason: Reason }),
    reply: Wpqr,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DUPLICATE'],
  }),
  list: defineRoute({
    id: 'listWpss',
    area,
    method: 'GET',
    path: '/api/wpss',
    summary: 'Procedures, newest revision first',
    access: access.signedIn,
    query: z.object({ state: z.enum(wpsStates).optional() }),
    reply: z.object({ wpss: z.array(WpsSummary) }),
    refusals: [],
  }),
  get: defineRoute({
    id: 'getWps',
    area,
    method: 'GET',
    path: '/api/wpss/:wpsId',
    summary: 'One procedure revision with ranges, records behind it and where it is used',
    access: access.signedIn,
    params: WpsParams,
    reply: Wps,
    refusals: ['NOT_FOUND'],
  }),
  add: defineRoute({
    id: 'addWps',
    area,
    method: 'POST',
    path: '/api/wpss',
    summary: 'Write a new procedure as draft',
    access: access.qa,
    body: WpsInput.extend({ number: Code }),
    reply: Wps,
    refusals: ['DUPLICATE', 'NOT_FOUND'],
  }),
  edit: defineRoute({
    id: 'editWps',
    area,
    method: 'PUT',
    path: '/api/wpss/:wpsId',
    summary: 'Change a draft',
    access: access.qa,
    params: WpsParams,
    body: WpsInput.extend({ expectedVersion: Version }),
    reply: Wps,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  approve: defineRoute({
    id: 'approveWps',
    area,
    method: 'POST',
    path: '/api/wpss/:wpsId/approve',
    summary: 'Approve a draft; the approved revision before it is superseded',
    access: access.coordinator,
    params: WpsParams,
    body: z.object({ expectedVersion: Version }),
    reply: Wps,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  revise: defineRoute({
    id: 'reviseWps',
    area,
    method: 'POST',
    path: '/api/wpss/:wpsId/revise',
    summary: 'Start the next revision as a draft',
    access: access.qa,
    params: WpsParams,
    body: z.object({ changeNote: text(500, 3) }),
    reply: Wps,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  withdraw: defineRoute({
    id: 'withdrawWps',
    area,
    method: 'POST',
    path: '/api/wpss/:wpsId/withdraw',
    summary: 'Withdraw a procedure from use',
    access: access.coordinator,
    params: WpsParams,
    body: z.object({ expectedVersion: Version, reason: Reason }),
    reply: Wps,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
};
