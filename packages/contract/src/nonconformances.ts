import { z } from 'zod';
import { access } from './access.js';
import { PhotoIds } from './files.js';
import { imperfections } from './first-piece.js';
import { defineRoute } from './route.js';
import { Count, Day, Id, Instant, Page, Quantity, Reason, text, Version } from './values.js';

/** What is wrong: an imperfection by its name in ISO 6520-1, or what no weld is at fault for. */
export const defects = [...imperfections, 'size', 'distortion', 'material', 'other'] as const;
export const dispositions = ['rework', 'useAsIs', 'scrap', 'concession'] as const;
/** Open: parts wait for a decision. Decided: rework waits for inspection, or only the closing is left. */
export const ncrStates = ['open', 'decided', 'closed'] as const;

export const NcrDecision = z.object({
  id: Id,
  disposition: z.enum(dispositions),
  quantity: z.number().int(),
  wpsLabel: z.string().nullable(),
  concession: z.string().nullable(),
  reason: z.string(),
  decidedBy: z.string(),
  decidedAt: Instant,
  /** Of the inspection after rework; null while it is to come or is not asked for. */
  accepted: Count.nullable(),
  inspectedBy: z.string().nullable(),
  inspectedAt: Instant.nullable(),
  inspectNote: z.string(),
});
export const Ncr = z.object({
  id: Id,
  version: Version,
  number: z.number().int(),
  state: z.enum(ncrStates),
  jobId: Id,
  jobNumber: z.number().int(),
  jobStepId: Id.nullable(),
  stepNumber: z.number().int().nullable(),
  cellCode: z.string().nullable(),
  partNumber: z.string(),
  customerName: z.string(),
  dueOn: Day,
  weldNumber: z.number().int().nullable(),
  defect: z.enum(defects),
  quantity: z.number().int(),
  /** Parts nobody has decided on. */
  undecided: Count,
  /** Parts that are neither good nor scrap yet. */
  quarantined: Count,
  twoPersons: z.boolean(),
  description: z.string(),
  raisedBy: z.string(),
  raisedAt: Instant,
  closedBy: z.string().nullable(),
  closedAt: Instant.nullable(),
  closeNote: z.string(),
  decisions: z.array(NcrDecision),
});
export type Ncr = z.infer<typeof Ncr>;

const area = 'quality';
const NcrParams = z.object({ ncrId: Id });
export const nonconformances = {
  ncrs: defineRoute({
    id: 'listNcrs',
    area,
    method: 'GET',
    path: '/api/ncrs',
    summary: 'NCRs, newest first',
    access: access.signedIn,
    query: Page.extend({ state: z.enum(ncrStates).optional(), jobId: Id.optional() }),
    reply: z.object({ ncrs: z.array(Ncr), total: Count }),
    refusals: [],
  }),
  ncr: defineRoute({
    id: 'getNcr',
    area,
    method: 'GET',
    path: '/api/ncrs/:ncrId',
    summary: 'One NCR with its decisions',
    access: access.signedIn,
    params: NcrParams,
    reply: Ncr,
    refusals: ['NOT_FOUND'],
  }),
  raiseNcr: defineRoute({
    id: 'raiseNcr',
    area,
    method: 'POST',
    path: '/api/job-steps/:jobStepId/ncrs',
    summary: 'Raise an NCR; its parts are in quarantine at once',
    access: access.cell,
    params: z.object({ jobStepId: Id }),
    body: z.object({
      defect: z.enum(defects),
      quantity: Quantity,
      /** Whether the parts stand among the good ones that are counted. */
      counted: z.boolean(),
      weldNumber: z.number().int().min(1).max(999).nullable().default(null),
      description: text(500, 0).default(''),
      photoIds: PhotoIds,
    }),
    reply: Ncr,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  decideNcr: defineRoute({
    id: 'decideNcr',
    area,
    method: 'POST',
    path: '/api/ncrs/:ncrId/decisions',
    summary: 'Decide what is done with some parts of an NCR',
    access: access.coordinator,
    params: NcrParams,
    body: z.object({
      disposition: z.enum(dispositions),
      quantity: Quantity,
      /** Rework: the approved procedure. */
      wpsId: Id.nullable().default(null),
      /** Concession: the customer's number of it. */
      concession: text(60).nullable().default(null),
      reason: Reason,
      expectedVersion: Version,
    }),
    reply: Ncr,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'NOT_ALLOWED', 'NEEDS_REASON', 'DOES_NOT_FIT'],
  }),
  inspectRework: defineRoute({
    id: 'inspectRework',
    area,
    method: 'POST',
    path: '/api/ncrs/:ncrId/decisions/:decisionId/inspection',
    summary: 'Inspect reworked parts again; what is not accepted waits for another decision',
    access: access.qa,
    params: NcrParams.extend({ decisionId: Id }),
    body: z.object({ accepted: Count, note: text(300, 0).default(''), expectedVersion: Version }),
    reply: Ncr,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
  closeNcr: defineRoute({
    id: 'closeNcr',
    area,
    method: 'POST',
    path: '/api/ncrs/:ncrId/close',
    summary: 'Close an NCR whose parts are all decided and inspected; a finished job then ends',
    access: access.qa,
    params: NcrParams,
    body: z.object({ note: Reason, expectedVersion: Version }),
    reply: Ncr,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW'],
  }),
};
