import { z } from 'zod';
import { access } from './access.js';
import { mechanisations } from './cells.js';
import { fitResults, strengths } from './fit.js';
import { certificateKinds } from './people.js';
import { TestedValues, TestPiece, wpsStates, WpsRanges } from './procedures.js';
import { defineRoute } from './route.js';
import { Day, Id, Instant, quantity, Range, text, Version } from './values.js';

/** What is typed so far: a field that is still empty is left out or null. */
const asTyped = <Shape extends z.ZodRawShape>(of: z.ZodObject<Shape>) => of.partial();
const Word = (max: number) => text(max, 0).nullable().default(null);

const WpqrTyped = z.object({
  code: text(60, 0),
  edition: text(20, 0),
  level: Word(10),
  process: text(10, 0),
  mechanisation: z.enum(mechanisations).nullable().default(null),
  filler: text(60, 0).default(''),
  gas: text(60, 0).default(''),
  transfer: Word(30),
  testPiece: asTyped(
    TestPiece.extend({
      thicknessMm: TestPiece.shape.thicknessMm.nullable(),
      material: text(60, 0),
      materialGroup: text(10, 0),
    }),
  ),
  testedValues: asTyped(TestedValues),
  ranges: asTyped(
    WpsRanges.extend({ process: text(10, 0), mechanisations: z.array(z.enum(mechanisations)) }),
  ),
});

/** The test piece of a welder's, operator's or setter's test, as far as it is printed on the certificate. */
const PersonTestPiece = z.object({
  jointType: Word(20),
  product: z.enum(['plate', 'pipe']).nullable().default(null),
  position: Word(10),
  thicknessMm: quantity(0.1, 500).nullable().default(null),
  depositedMm: quantity(0.1, 500).nullable().default(null),
  diameterMm: quantity(1, 5000).nullable().default(null),
  layers: z.number().int().min(1).max(500).nullable().default(null),
  weldDetail: Word(20),
  fillerGroup: Word(20),
  materialGroup: Word(20),
  transfer: Word(30),
  runs: z.enum(['single', 'multi']).nullable().default(null),
  supplementaryFillet: z.boolean().nullable().default(null),
});

const CertificateTyped = z.object({
  kind: z.enum(certificateKinds),
  code: text(60, 0),
  edition: text(20, 0),
  process: text(10, 0),
  cellId: Id.nullable().default(null),
  testedOn: Day.nullable().default(null),
  renewalRoute: Word(200),
  testPiece: PersonTestPiece,
  jointTypes: z.array(text(20)).max(10).default([]),
  positions: z.array(text(10)).max(20).default([]),
  materialGroups: z.array(text(20)).max(20).default([]),
  fillerGroups: z.array(text(20)).max(20).default([]),
  thicknessMm: Range.nullable().default(null),
  diameterMm: Range.nullable().default(null),
});

export const suggestionAnswers = ['range', 'list', 'any', 'cannotSay'] as const;
export const checkAnswers = ['agrees', 'ask', 'cannotSay'] as const;

/** What the rule gives for one variable of a test, and how what was typed lies to it. */
export const SuggestedRange = z.object({
  variable: z.string(),
  /** The field of the record it belongs to; null where the form has none. */
  field: z.string().nullable(),
  answer: z.enum(suggestionAnswers),
  unit: z.string().nullable(),
  min: z.number().nullable(),
  max: z.number().nullable(),
  values: z.array(z.string()),
  /** The wider part on which editions or memory differ; null where there is none. */
  unsure: z.string().nullable(),
  /** "3 to 24 mm", "PA, PB", "no limit", or why nothing can be said. */
  words: z.string(),
  rule: z.string(),
  confidence: z.enum(['high', 'medium', 'low']),
  source: z.string(),
  check: z.object({ answer: z.enum(checkAnswers), words: z.string() }).nullable(),
});
export type SuggestedRange = z.infer<typeof SuggestedRange>;

export const Suggestions = z.object({
  code: z.string().nullable(),
  edition: z.string().nullable(),
  /** Why the tables say nothing at all about this test; null when they do. */
  cannotSay: z.string().nullable(),
  ranges: z.array(SuggestedRange),
});
export type Suggestions = z.infer<typeof Suggestions>;

const CertificateSuggestions = Suggestions.extend({
  /** Last days by the rules of the code, and the clauses they stand in; null where they cannot be told. */
  dates: z
    .object({
      validUntil: Day.nullable(),
      confirmedUntil: Day,
      validityClause: z.string(),
      confirmationClause: z.string(),
    })
    .nullable(),
});
export type CertificateSuggestions = z.infer<typeof CertificateSuggestions>;

const TouchedJob = z.object({
  jobId: Id,
  jobStepId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  cellCode: z.string(),
  state: z.enum(['blocked', 'waiting', 'held']),
  /** The revision it was pulled under; null while it waits. */
  underRevision: z.number().int().nullable(),
  result: z.enum(fitResults),
  words: z.string(),
});
const Touched = z.object({
  number: z.string(),
  revision: z.number().int(),
  state: z.enum(wpsStates),
  parts: z.array(
    z.object({
      partId: Id,
      partNumber: z.string(),
      revisionId: Id,
      revisionLabel: z.string(),
      stepNumber: z.number().int(),
      stepName: z.string(),
    }),
  ),
  jobs: z.array(TouchedJob),
  /** Steps that are done and keep the revision they were made under. */
  pastSteps: z.number().int(),
});
export type Touched = z.infer<typeof Touched>;

const ProcedureMiss = z.object({
  wpsId: Id,
  label: z.string(),
  variable: z.string(),
  words: z.string(),
  /** How far outside, in `unit`; null for a designation, which has no distance. */
  distance: z.number().nullable(),
  unit: z.string().nullable(),
});
const ProcedureRef = z.object({ wpsId: Id, label: z.string() });
export const WeldProcedures = z.object({
  weldNumber: z.number().int(),
  stepNumber: z.number().int(),
  weld: z.string(),
  /** The procedure that the step names; null where it names none. */
  named: z.string().nullable(),
  covering: z.array(ProcedureRef),
  cannotSay: z.array(ProcedureRef),
  nearestMisses: z.array(ProcedureMiss),
});
export type WeldProcedures = z.infer<typeof WeldProcedures>;

const CoverageCell = z.object({
  position: z.string(),
  fromMm: z.number().nullable(),
  toMm: z.number().nullable(),
  procedures: z.array(z.string()),
  people: z.array(z.string()),
  welds: z.number().int(),
  withoutProcedure: z.array(z.string()),
  withoutPerson: z.array(z.string()),
});
export const ProcessCoverage = z.object({
  process: z.string(),
  positions: z.array(z.string()),
  cells: z.array(CoverageCell),
  notPlaced: z.array(z.string()),
});
export type ProcessCoverage = z.infer<typeof ProcessCoverage>;

export const lapseKinds = ['certificate', 'confirmation', 'instrument'] as const;
export const horizons = ['lapsed', '30', '60', '90'] as const;
const Lapse = z.object({
  kind: z.enum(lapseKinds),
  /** The certificate or instrument. */
  subjectId: Id,
  label: z.string(),
  personId: Id.nullable(),
  lastDay: Day,
  daysLeft: z.number().int(),
  within: z.enum(horizons),
  /** Queued jobs that nothing else would carry then. */
  stops: z.array(
    z.object({ jobId: Id, jobNumber: z.number().int(), partNumber: z.string(), dueOn: Day }),
  ),
});
export type Lapse = z.infer<typeof Lapse>;

const EvidenceRun = z.object({
  runId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  cellCode: z.string(),
  on: Day,
  goodCount: z.number().int(),
});
const ProposedConfirmation = z.object({
  certificateId: Id,
  certificateNumber: z.string(),
  personId: Id,
  personCode: z.string(),
  personName: z.string(),
  process: z.string(),
  confirmedUntil: Day.nullable(),
  /** The day that the evidence reaches to; null without any. */
  confirmedOn: Day.nullable(),
  /** Runs of the last six months with the process, newest first. */
  runs: z.array(EvidenceRun),
  /** What would be signed; empty without any run: then only a new test helps. */
  evidence: z.string(),
});
export type ProposedConfirmation = z.infer<typeof ProposedConfirmation>;

const policySubjects = ['procedure', 'person'] as const;
const PolicyAnswers = z.object({
  outside: z.enum(strengths),
  outsideCoded: z.enum(strengths),
  cannotSay: z.enum(strengths),
});
export const PolicyLine = PolicyAnswers.extend({
  subject: z.enum(policySubjects),
  /** Names the row; `variable` is its word. */
  key: z.string(),
  variable: z.string(),
  /** What the answers do at least, in any shop. */
  least: PolicyAnswers,
  version: Version,
});
export type PolicyLine = z.infer<typeof PolicyLine>;
const WeekOverride = z.object({
  id: Id,
  jobId: Id,
  jobNumber: z.number().int(),
  rule: z.string(),
  reason: z.string(),
  signedBy: z.string(),
  forPerson: z.string().nullable(),
  signedAt: Instant,
  expiresAt: Instant,
  /** How often the same rule was passed in the last thirty days. */
  timesInMonth: z.number().int(),
});

const area = 'qualification';
export const qualification = {
  suggestWpqr: defineRoute({
    id: 'suggestWpqr',
    area,
    method: 'POST',
    path: '/api/wpqrs/suggest',
    summary:
      'What the range rules give for a procedure test, and how the typed ranges lie to it; nothing is stored',
    access: access.qa,
    body: WpqrTyped,
    reply: Suggestions,
    refusals: [],
  }),
  suggestCertificate: defineRoute({
    id: 'suggestCertificate',
    area,
    method: 'POST',
    path: '/api/certificates/suggest',
    summary:
      'What the range rules give for the test of a person, and how the typed ranges lie to it; nothing is stored',
    access: access.qa,
    body: CertificateTyped,
    reply: CertificateSuggestions,
    refusals: ['NOT_FOUND'],
  }),
  touched: defineRoute({
    id: 'touchedByWps',
    area,
    method: 'GET',
    path: '/api/wpss/:wpsId/touched',
    summary: 'Parts and queued jobs that a procedure revision touches, each judged against it',
    access: access.signedIn,
    params: z.object({ wpsId: Id }),
    reply: Touched,
    refusals: ['NOT_FOUND'],
  }),
  proceduresFor: defineRoute({
    id: 'proceduresForRevision',
    area,
    method: 'GET',
    path: '/api/revisions/:revisionId/procedures',
    summary:
      'For each weld of a part revision, the procedures that cover it and the nearest misses',
    access: access.signedIn,
    params: z.object({ revisionId: Id }),
    reply: z.object({ welds: z.array(WeldProcedures) }),
    refusals: ['NOT_FOUND'],
  }),
  coverage: defineRoute({
    id: 'coverage',
    area,
    method: 'GET',
    path: '/api/procedures/coverage',
    summary:
      'Thickness against position per process: what can be welded now, what is needed, where the holes are',
    access: access.signedIn,
    reply: z.object({ processes: z.array(ProcessCoverage) }),
    refusals: [],
  }),
  lapses: defineRoute({
    id: 'lapses',
    area,
    method: 'GET',
    path: '/api/lapses',
    summary:
      'What lapses in the next ninety days, the queued jobs it stops, and confirmations with their evidence',
    access: access.oversight,
    reply: z.object({
      day: Day,
      lapses: z.array(Lapse),
      unreadable: z.array(z.string()),
      confirmations: z.array(ProposedConfirmation),
    }),
    refusals: [],
  }),
  policy: defineRoute({
    id: 'policy',
    area,
    method: 'GET',
    path: '/api/policy',
    summary: 'What each answer of a fit does, by variable, and the overrides signed this week',
    access: access.signedIn,
    reply: z.object({ lines: z.array(PolicyLine), from: Day, overrides: z.array(WeekOverride) }),
    refusals: [],
  }),
  setPolicy: defineRoute({
    id: 'setPolicy',
    area,
    method: 'PUT',
    path: '/api/policy/:subject/:variable',
    summary: 'Change what the answers of one variable do; never below what protects people',
    access: access.coordinator,
    params: z.object({ subject: z.enum(policySubjects), variable: text(40) }),
    body: PolicyAnswers.extend({ reason: text(500, 15), expectedVersion: Version }),
    reply: PolicyLine,
    refusals: ['NOT_FOUND', 'STALE', 'DOES_NOT_FIT'],
  }),
};
