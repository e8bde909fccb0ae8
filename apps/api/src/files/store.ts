import { fileMedia, type FileSubjectType, type StoredFile } from '@tackboard/contract';
import { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';
import { recordsOfJob, type RecordOfJob } from './job-store.js';
import type { Subject } from './subject.js';

export type FileRow = Prisma.StoredFileGetPayload<object>;

const Media = z.enum(fileMedia);

/** Whether a record is on file; each kind stands in its own table. */
async function exists(db: Db, { type, id }: Subject): Promise<boolean> {
  const at = { where: { id }, select: { id: true } } as const;
  const found = {
    nonconformance: async () => db.nonconformance.findUnique(at),
    firstPiece: async () => db.firstPiece.findUnique(at),
    setUp: async () => db.setUp.findUnique(at),
    fixture: async () => db.fixture.findUnique(at),
    wpqr: async () => db.wpqr.findUnique(at),
    certificate: async () => db.certificate.findUnique(at),
    lot: async () => db.lot.findUnique(at),
    revision: async () => db.revision.findUnique(at),
  } satisfies Record<FileSubjectType, () => Promise<{ id: string } | null>>;
  return (await found[type]()) !== null;
}

export function fileReader(db: Db) {
  return {
    recordsOfJob: async (jobId: string): Promise<RecordOfJob[] | null> => recordsOfJob(db, jobId),
    exists: async (subject: Subject) => exists(db, subject),
    async file(id: string) {
      const row = await db.storedFile.findUnique({ where: { id }, include: { uses: true } });
      if (row === null) return null;
      const { uses, ...file } = row;
      return { file, usedBy: uses.map(({ subjectType }) => subjectType as FileSubjectType) };
    },
    async filesOf({ type, id }: Subject): Promise<FileRow[]> {
      const uses = await db.fileUse.findMany({
        where: { subjectType: type, subjectId: id },
        include: { file: true },
        orderBy: [{ usedAt: 'asc' }, { id: 'asc' }],
      });
      return uses.map(({ file }) => file);
    },
    async views(rows: readonly FileRow[]): Promise<StoredFile[]> {
      const ids = rows.flatMap(({ uploadedBy }) => uploadedBy ?? []);
      const people = await db.person.findMany({
        where: { id: { in: [...new Set(ids)] } },
        select: { id: true, name: true },
      });
      const names = new Map(people.map(({ id, name }) => [id, name]));
      return rows.map(({ media, uploadedBy, uploadedAt, ...row }) => ({
        ...row,
        media: Media.parse(media),
        uploadedBy: names.get(uploadedBy ?? '') ?? '',
        uploadedAt: uploadedAt.toISOString(),
      }));
    },
    /** Uploads from before an instant that nothing refers to. */
    async unused(before: Date): Promise<FileRow[]> {
      return db.storedFile.findMany({ where: { uploadedAt: { lt: before }, uses: { none: {} } } });
    },
    async drawing(revisionId: string) {
      return db.revision.findUniqueOrThrow({
        where: { id: revisionId },
        select: { label: true, state: true, drawingPrint: true, version: true },
      });
    },
  };
}

export function fileWriter(tx: TransactionClient) {
  return {
    ...fileReader(tx),
    async add(row: FileRow): Promise<void> {
      await tx.storedFile.create({ data: row });
    },
    async use(row: Omit<Prisma.FileUseUncheckedCreateInput, 'usedAt'> & { usedAt: Date }) {
      await tx.fileUse.create({ data: row });
    },
    /** Whether other uploads share the content is for the caller to ask after it. */
    async drop(id: string): Promise<void> {
      await tx.storedFile.delete({ where: { id } });
    },
    async shared(sha256: string): Promise<boolean> {
      return (await tx.storedFile.count({ where: { sha256 } })) > 0;
    },
    async setDrawing(revisionId: string, drawingPrint: string): Promise<void> {
      await tx.revision.update({
        where: { id: revisionId },
        data: { drawingPrint, version: { increment: 1 } },
      });
    },
  };
}
