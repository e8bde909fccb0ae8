import {
  fileSubjects,
  maxFileBytes,
  mayCall,
  type Caller,
  type FileSubjectType,
  type StoredFile,
} from '@tackboard/contract';
import type { Readable } from 'node:stream';
import { actingPerson, systemActor, type Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { fileDisk, type FileDisk, type Incoming } from './disk.js';
import { nameOf, tooLarge } from './file-words.js';
import { isPicture, lookAt } from './look.js';
import { fileReader, fileWriter, type FileRow, type Subject } from './store.js';

export type FilesService = ReturnType<typeof createFilesService>;

/** How long an upload waits for the act that refers to it: a tablet may be without network for a shift. */
const unusedForMs = 24 * 3_600_000;

export function createFilesService(foundation: Foundation, folder: string) {
  const disk = fileDisk(folder);
  return {
    ...reading(foundation, disk),
    ...uploading(foundation, disk),
    ...using(foundation),
  };
}

function callerOf({ person, tablet }: Actor): Caller {
  return { person, tablet: tablet !== null };
}

function reading({ database }: Foundation, disk: FileDisk) {
  const store = fileReader(database.reader);
  return {
    /** The content with its row. Who may not see what it belongs to learns nothing of it. */
    async content(actor: Actor, id: string): Promise<{ file: FileRow; stream: Readable }> {
      const found = await store.file(id);
      if (found === null || !maySee(actor, found)) throw notFound('file', id, 'params.fileId');
      return { file: found.file, stream: disk.read(found.file.sha256) };
    },

    async filesOf(actor: Actor, subject: Subject): Promise<{ files: StoredFile[] }> {
      if (!mayCall(fileSubjects[subject.type].read, callerOf(actor))) return { files: [] };
      return { files: await store.views(await store.filesOf(subject)) };
    },

    /** Where the pictures of a record lie, for the sheet that shows them. */
    async picturesOf(subject: Subject, db: Db = database.reader) {
      const rows = await fileReader(db).filesOf(subject);
      return rows
        .filter(({ media }) => isPicture(media))
        .map(({ sha256, ...row }) => ({ ...row, path: disk.pathOf(sha256) }));
    },
  };
}

/** One's own upload, until it belongs to something; from then on whoever may see that. */
function maySee(
  actor: Actor,
  { file, usedBy }: { file: FileRow; usedBy: readonly FileSubjectType[] },
): boolean {
  const caller = callerOf(actor);
  if (usedBy.some((type) => mayCall(fileSubjects[type].read, caller))) return true;
  return actor.person !== null && actor.person.id === file.uploadedBy;
}

function uploading({ uow, newId, clock, database }: Foundation, disk: FileDisk) {
  return {
    /** Takes the bytes in without looking at them. Whoever calls it keeps or drops what it answers. */
    async receive(
      stream: Readable & { readonly truncated?: boolean },
      given: { readonly name: string; readonly announced: number | null },
    ): Promise<Incoming> {
      const incoming = await disk.receive(stream);
      if (stream.truncated !== true && incoming.bytes <= maxFileBytes) return incoming;
      await disk.drop(incoming);
      throw tooLarge(nameOf(given.name), given.announced);
    },
    drop: async (incoming: Incoming) => disk.drop(incoming),

    /** Keeps what came in. The bytes lie under their final name before the row says so. */
    async upload(
      actor: Actor,
      incoming: Incoming,
      given: { readonly name: string; readonly id?: string | undefined },
    ): Promise<StoredFile> {
      const name = nameOf(given.name);
      try {
        const looked = await lookAt(incoming, name);
        const { sha256, bytes } = incoming;
        await disk.keep(incoming);
        return await uow.write(actor, async (unit) => {
          const store = fileWriter(unit.tx);
          const id = given.id ?? newId();
          const before = await store.file(id);
          if (before !== null) return sameAgain(store, unit, before.file, sha256);
          const row = { ...looked, id, sha256, bytes, name };
          const uploadedBy = actor.person?.id ?? null;
          await store.add({ ...row, uploadedBy, uploadedAt: unit.now });
          unit.append({ type: 'file.uploaded', subjectType: 'file', subjectId: id, after: row });
          return viewOf(store, { ...row, uploadedBy, uploadedAt: unit.now });
        });
      } finally {
        await disk.drop(incoming);
      }
    },

    /** Clears what was never used. For the start: nothing may come in meanwhile. */
    async tidy(): Promise<number> {
      await disk.clearIncoming();
      const before = new Date(clock.now().getTime() - unusedForMs);
      const unused = await fileReader(database.reader).unused(before);
      for (const { id, sha256, name } of unused) {
        const shared = await uow.write(systemActor, async (unit) => {
          const store = fileWriter(unit.tx);
          await store.drop(id);
          unit.append({
            ...{ type: 'file.cleared', subjectType: 'file', subjectId: id },
            before: { name, sha256 },
          });
          return store.shared(sha256);
        });
        if (!shared) await disk.remove(sha256);
      }
      return unused.length;
    },
  };
}

type Writer = ReturnType<typeof fileWriter>;

async function viewOf(store: Pick<Writer, 'views'>, row: FileRow): Promise<StoredFile> {
  const [view] = await store.views([row]);
  if (view === undefined) throw new Error(`File ${row.id} has no view.`);
  return view;
}

/** The sender named the file itself; a repeat is the same upload, anything else would change what acts refer to. */
async function sameAgain(store: Writer, { actor }: Unit, row: FileRow, sha256: string) {
  if (row.sha256 === sha256 && row.uploadedBy === actor.person?.id) return viewOf(store, row);
  throw refuseField(
    'DUPLICATE',
    'Another file has this id. Send it with an id of its own, or without one.',
    'query.id',
    row.id,
    'an id that no file has',
  );
}

function using({ uow, newId }: Foundation) {
  /** Says that files belong to a record, in the commit of whoever wrote the record. */
  async function useIn(unit: Unit, subject: Subject, fileIds: readonly string[]): Promise<void> {
    const store = fileWriter(unit.tx);
    for (const fileId of new Set(fileIds)) {
      const found = await store.file(fileId);
      if (found === null || !maySee(unit.actor, found))
        throw notFound('file', fileId, 'body.fileId');
      refuseWrongKind(subject, found.file);
      await store.use({
        ...{ id: newId(), fileId, subjectType: subject.type, subjectId: subject.id },
        ...{ usedBy: unit.actor.person?.id ?? null, usedAt: unit.now },
      });
    }
  }

  return {
    useIn,

    /** What is set up again is set up by the same pictures. */
    async copyUses(unit: Unit, from: Subject, to: Subject): Promise<void> {
      const store = fileWriter(unit.tx);
      for (const { id: fileId } of await store.filesOf(from))
        await store.use({
          ...{ id: newId(), fileId, subjectType: to.type, subjectId: to.id },
          ...{ usedBy: unit.actor.person?.id ?? null, usedAt: unit.now },
        });
    },

    async attach(actor: Actor, subject: Subject, fileId: string): Promise<StoredFile> {
      return uow.write(actor, async (unit) => {
        actingPerson(actor);
        const store = fileWriter(unit.tx);
        if (!(await store.exists(subject)))
          throw notFound('record', subject.id, 'params.subjectId');
        await useIn(unit, subject, [fileId]);
        const found = await store.file(fileId);
        if (found === null) throw notFound('file', fileId, 'body.fileId');
        if (subject.type === 'revision') await setDrawing(store, unit, subject.id, found.file);
        const { sha256, name } = found.file;
        unit.append({
          type: `${subject.type}.fileAdded`,
          ...{ subjectType: subject.type, subjectId: subject.id },
          after: { fileId, name, sha256 },
        });
        return viewOf(store, found.file);
      });
    },
  };
}

function refuseWrongKind({ type }: Subject, { name, media }: FileRow): void {
  if (fileSubjects[type].takes === 'any' || isPicture(media)) return;
  throw refuseField(
    'DOES_NOT_FIT',
    `"${name}" is a PDF, and here a photo is asked for. Choose a JPEG, PNG or WebP.`,
    'body.fileId',
    name,
    'a JPEG, PNG or WebP',
  );
}

/** The fingerprint of a drawing follows its file. A released revision keeps the drawing that it was released with. */
async function setDrawing(
  store: Writer,
  unit: Unit,
  revisionId: string,
  { sha256, name }: FileRow,
): Promise<void> {
  const { label, state, drawingPrint, version } = await store.drawing(revisionId);
  if (drawingPrint === sha256) return;
  if (state !== 'draft' && drawingPrint !== null) {
    throw refuseField(
      'NOT_NOW',
      `Revision ${label} is ${state} with another drawing file than "${name}". Same revision, different file: ask the customer, and start a new revision for the changed drawing.`,
      'body.fileId',
      name,
      `the drawing file with the fingerprint ${drawingPrint.slice(0, 12)}`,
    );
  }
  await store.setDrawing(revisionId, sha256);
  unit.append({
    type: 'revision.drawingSet',
    ...{ subjectType: 'revision', subjectId: revisionId, version: version + 1 },
    ...{ before: { drawingPrint }, after: { drawingPrint: sha256 } },
  });
}
