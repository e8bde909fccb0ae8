import type { Revision } from '@tackboard/contract';
import { notFound, stale } from '../refusal.js';
import { refuseUnlessDraft } from './revision-rules.js';
import type { revisionReader } from './revision-store.js';

type Store = Pick<ReturnType<typeof revisionReader>, 'revision'>;

export async function foundRevision(store: Store, id: string, field?: string): Promise<Revision> {
  const revision = await store.revision(id);
  if (revision === null) throw notFound('revision', id, field);
  return revision;
}

export async function openDraft(
  store: Store,
  id: string,
  expectedVersion: number,
): Promise<Revision> {
  const revision = await foundRevision(store, id);
  if (revision.version !== expectedVersion) throw stale('revision', revision, expectedVersion);
  refuseUnlessDraft(revision);
  return revision;
}

export function revisionSubject(revisionId: string, version: number) {
  return { subjectType: 'revision', subjectId: revisionId, version } as const;
}
