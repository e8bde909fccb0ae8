import { z } from 'zod';
import { access, type Access } from './access.js';
import type { RefusalCode } from './errors.js';
import { defineRoute } from './route.js';
import { Id, Instant } from './values.js';

/** The largest file of a record and the largest photo. */
export const maxFileBytes = 20 * 1024 * 1024;

/** What every browser of the shop can show, and nothing that can act in one. */
export const pictureMedia = ['image/jpeg', 'image/png', 'image/webp'] as const;
export const fileMedia = [...pictureMedia, 'application/pdf'] as const;

interface FileSubject {
  /** Photos alone, or scanned papers as well. */
  readonly takes: 'picture' | 'any';
  readonly read: Access;
}

/** What a file can belong to. A set-up and its fixture are looked at before anybody signs in at the cell. */
export const fileSubjects = {
  nonconformance: { takes: 'picture', read: access.signedIn },
  firstPiece: { takes: 'picture', read: access.signedIn },
  setUp: { takes: 'picture', read: access.tabletOrPerson },
  fixture: { takes: 'picture', read: access.tabletOrPerson },
  wpqr: { takes: 'any', read: access.signedIn },
  certificate: { takes: 'any', read: access.signedIn },
  lot: { takes: 'any', read: access.signedIn },
  revision: { takes: 'any', read: access.signedIn },
} as const satisfies Record<string, FileSubject>;
export type FileSubjectType = keyof typeof fileSubjects;

export const StoredFile = z.object({
  id: Id,
  /** Fingerprint of the content, SHA-256 in hexadecimal digits. */
  sha256: z.string(),
  media: z.enum(fileMedia),
  bytes: z.number().int(),
  /** As given, for people; nothing is found by it. */
  name: z.string(),
  widthPx: z.number().int().nullable(),
  heightPx: z.number().int().nullable(),
  uploadedBy: z.string(),
  uploadedAt: Instant,
});
export type StoredFile = z.infer<typeof StoredFile>;

/** Photos that an act refers to; each was sent before it. */
export const PhotoIds = z.array(Id).max(10, 'must be ten photos or fewer').optional();

const area = 'files';
const AttachBody = z.object({ fileId: Id });

function attachRoute<const Id_ extends string, const A extends Access>(route: {
  readonly id: Id_;
  readonly path: `/api/files/${string}/:subjectId`;
  readonly summary: string;
  readonly access: A;
}) {
  return defineRoute({
    ...route,
    area,
    method: 'POST',
    params: z.object({ subjectId: Id }),
    body: AttachBody,
    reply: StoredFile,
    refusals: ['NOT_FOUND', 'DOES_NOT_FIT', 'NOT_NOW'] as readonly RefusalCode[],
  });
}

export const files = {
  upload: defineRoute({
    id: 'uploadFile',
    area,
    method: 'POST',
    path: '/api/files',
    summary: 'Store one file (PDF, JPEG, PNG, WebP; up to 20 MB); unused for a day it is cleared',
    access: access.signedIn,
    /** The sender may name the file before the answer comes, so that acts can refer to it. */
    query: z.object({ id: Id.optional() }),
    takesFile: true,
    reply: StoredFile,
    refusals: ['TOO_LARGE', 'WRONG_MEDIA_TYPE', 'DOES_NOT_FIT', 'DUPLICATE'],
  }),
  content: defineRoute({
    id: 'fileContent',
    area,
    method: 'GET',
    path: '/api/files/:fileId',
    summary: 'The content of a file, for whoever may see what it belongs to',
    access: access.tabletOrPerson,
    params: z.object({ fileId: Id }),
    reply: z.unknown(),
    media: '*/*',
    refusals: ['NOT_FOUND'],
  }),
  of: defineRoute({
    id: 'filesOf',
    area,
    method: 'GET',
    path: '/api/files',
    summary: 'The files of one record, oldest first',
    access: access.tabletOrPerson,
    query: z.object({
      subjectType: z.enum(Object.keys(fileSubjects) as [FileSubjectType, ...FileSubjectType[]]),
      subjectId: Id,
    }),
    reply: z.object({ files: z.array(StoredFile) }),
    refusals: [],
  }),
  ofJob: defineRoute({
    id: 'filesOfJob',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId/files',
    summary: 'Photos and papers that belong to a job through its records',
    access: access.signedIn,
    params: z.object({ jobId: Id }),
    reply: z.object({
      /** Each record that has files, named as people name it. */
      records: z.array(z.object({ name: z.string(), files: z.array(StoredFile) })),
    }),
    refusals: ['NOT_FOUND'],
  }),
  toNcr: attachRoute({
    id: 'addNcrFile',
    path: '/api/files/ncrs/:subjectId',
    summary: 'Add a photo to an NCR',
    access: access.cell,
  }),
  toFirstPiece: attachRoute({
    id: 'addFirstPieceFile',
    path: '/api/files/first-pieces/:subjectId',
    summary: 'Add a photo to a first piece',
    access: access.cell,
  }),
  toSetUp: attachRoute({
    id: 'addSetUpFile',
    path: '/api/files/set-ups/:subjectId',
    summary: 'Add a photo to a set-up; the set-up kept after it has it too',
    access: access.signedIn,
  }),
  toFixture: attachRoute({
    id: 'addFixtureFile',
    path: '/api/files/fixtures/:subjectId',
    summary: 'Add a photo of a fixture in its place',
    access: access.signedIn,
  }),
  toWpqr: attachRoute({
    id: 'addWpqrFile',
    path: '/api/files/wpqrs/:subjectId',
    summary: 'Add the scanned paper to a procedure qualification record',
    access: access.qa,
  }),
  toCertificate: attachRoute({
    id: 'addCertificateFile',
    path: '/api/files/certificates/:subjectId',
    summary: 'Add the scanned paper to a certificate of a person',
    access: access.qa,
  }),
  toLot: attachRoute({
    id: 'addLotFile',
    path: '/api/files/lots/:subjectId',
    summary: 'Add the scanned certificate to a lot',
    access: access.planning,
  }),
  toRevision: attachRoute({
    id: 'addRevisionFile',
    path: '/api/files/revisions/:subjectId',
    summary: 'Add the drawing file to a revision; a released one keeps the drawing it has',
    access: access.planning,
  }),
};

/** The route that adds a file to a kind of record. */
export const attachRoutes = {
  nonconformance: files.toNcr,
  firstPiece: files.toFirstPiece,
  setUp: files.toSetUp,
  fixture: files.toFixture,
  wpqr: files.toWpqr,
  certificate: files.toCertificate,
  lot: files.toLot,
  revision: files.toRevision,
} as const satisfies Record<FileSubjectType, unknown>;
