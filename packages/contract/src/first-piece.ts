import { z } from 'zod';
import { access } from './access.js';
import { PhotoIds } from './files.js';
import { qualityLevels } from './revisions.js';
import { defineRoute } from './route.js';
import { Count, Id, Instant, quantity, text, Version } from './values.js';

/** Surface imperfections that a visual test can find, by their names in ISO 6520-1. */
export const imperfections = [
  'crack',
  'surfacePore',
  'openCraterPipe',
  'lackOfFusion',
  'incompleteRootPenetration',
  'undercut',
  'excessWeldMetal',
  'excessiveConvexity',
  'excessivePenetration',
  'overlap',
  'linearMisalignment',
  'sagging',
  'burnThrough',
  'incompletelyFilledGroove',
  'excessiveAsymmetry',
  'rootConcavity',
  'poorRestart',
  'insufficientThroat',
  'excessiveThroat',
  'strayArc',
  'spatter',
] as const;

export const firstPieceResults = ['passed', 'failed', 'waitingQa'] as const;
export const firstPieceScopes = ['short', 'full'] as const;
export const sizeMeasures = ['throat', 'leg'] as const;

/** What a size may be; a null upper limit is no limit. Limits are inclusive. */
const SizeLimits = z.object({
  weldNumber: z.number().int(),
  measure: z.enum(sizeMeasures),
  nominalMm: z.number(),
  lowestMm: z.number(),
  highestMm: z.number().nullable(),
});
export const FirstPieceSize = SizeLimits.extend({ measuredMm: z.number(), inside: z.boolean() });
export type FirstPieceSize = z.infer<typeof FirstPieceSize>;

export const FirstPiece = z.object({
  id: Id,
  version: Version,
  jobStepId: Id,
  jobId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  stepNumber: z.number().int(),
  cellCode: z.string(),
  scope: z.enum(firstPieceScopes),
  reasons: z.array(z.string()),
  sizes: z.array(FirstPieceSize),
  visual: z.enum(['accepted', 'rejected']),
  imperfections: z.array(z.enum(imperfections)),
  qualityLevel: z.enum(qualityLevels),
  note: z.string(),
  result: z.enum(firstPieceResults),
  signedBy: z.string(),
  signedAt: Instant,
  qaSignedBy: z.string().nullable(),
  qaSignedAt: Instant.nullable(),
  qaNote: z.string(),
});
export type FirstPiece = z.infer<typeof FirstPiece>;

export const FirstPieceTask = z.object({
  scope: z.enum(firstPieceScopes),
  /** Why the check is short or full, in words. */
  reasons: z.array(z.string()),
  /** The sizes to measure; each weld may be measured as a throat or as a leg. */
  sizes: z.array(SizeLimits),
  qualityLevel: z.enum(qualityLevels),
  twoPersons: z.boolean(),
  /** A passed check holds while cell, set-up and procedure are the ones it was made with. */
  passed: z.boolean(),
  /** Checks of this step of the job, newest first. */
  checks: z.array(FirstPiece),
});
export type FirstPieceTask = z.infer<typeof FirstPieceTask>;

const area = 'quality';
export const firstPieces = {
  firstPieceOfRun: defineRoute({
    id: 'firstPieceOfRun',
    area,
    method: 'GET',
    path: '/api/runs/:runId/first-piece',
    summary: 'What the first piece of a run is checked for, why, and the checks made',
    access: access.tabletOrPerson,
    params: z.object({ runId: Id }),
    reply: FirstPieceTask,
    refusals: ['NOT_FOUND'],
  }),
  checkFirstPiece: defineRoute({
    id: 'checkFirstPiece',
    area,
    method: 'POST',
    path: '/api/runs/:runId/first-piece',
    summary: 'Check the first piece and sign it; a pass lets the rest of the batch be counted',
    access: access.cell,
    params: z.object({ runId: Id }),
    body: z.object({
      sizes: z
        .array(
          z.object({
            weldNumber: z.number().int().min(1).max(999),
            measure: z.enum(sizeMeasures),
            measuredMm: quantity(0, 300),
          }),
        )
        .max(999),
      visual: z.enum(['accepted', 'rejected']),
      imperfections: z.array(z.enum(imperfections)).max(imperfections.length).default([]),
      note: text(300, 0).default(''),
      photoIds: PhotoIds,
    }),
    reply: FirstPiece,
    refusals: ['NOT_FOUND', 'NOT_NOW', 'NEEDS_REASON', 'DOES_NOT_FIT'],
  }),
  signFirstPiece: defineRoute({
    id: 'signFirstPiece',
    area,
    method: 'POST',
    path: '/api/first-pieces/:firstPieceId/signature',
    summary: 'QA signs a first piece as the second person, or turns it down',
    access: access.qa,
    params: z.object({ firstPieceId: Id }),
    body: z.object({
      accepted: z.boolean(),
      note: text(300, 0).default(''),
      expectedVersion: Version,
    }),
    reply: FirstPiece,
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'NOT_ALLOWED', 'NEEDS_REASON'],
  }),
  firstPieces: defineRoute({
    id: 'listFirstPieces',
    area,
    method: 'GET',
    path: '/api/first-pieces',
    summary: 'First pieces, newest first',
    access: access.signedIn,
    query: z.object({
      result: z.enum(firstPieceResults).optional(),
      jobId: Id.optional(),
      limit: z.coerce.number().int().min(1).max(200).default(50),
    }),
    reply: z.object({ firstPieces: z.array(FirstPiece), total: Count }),
    refusals: [],
  }),
};
