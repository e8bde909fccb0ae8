import type { BodyOf, parts, Revision } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { foundRevision, openDraft, revisionSubject } from './found-revision.js';
import { refuseUnlessComplete } from './revision-rules.js';
import { revisionWriter } from './revision-store.js';

export function releaseService({ uow }: Foundation) {
  return {
    async releaseRevision(
      actor: Actor,
      revisionId: string,
      { expectedVersion, changeNote }: BodyOf<typeof parts.releaseRevision>,
    ): Promise<Revision> {
      return uow.write(actor, async (unit) => {
        const store = revisionWriter(unit.tx);
        const draft = await openDraft(store, revisionId, expectedVersion);
        refuseUnlessComplete(draft);
        for (const former of await store.supersede(draft.partId)) {
          unit.append({
            type: 'revision.superseded',
            ...revisionSubject(former.id, former.version + 1),
            before: { state: 'released' },
            after: { state: 'superseded', by: draft.label },
          });
        }
        const releasedBy = actingPerson(actor).id;
        await store.release(revisionId, { releasedBy, releasedAt: unit.now, changeNote });
        unit.append({
          type: 'revision.released',
          ...revisionSubject(revisionId, draft.version + 1),
          before: { state: draft.state, changeNote: draft.changeNote },
          after: { state: 'released', changeNote },
          meaning: 'approved',
        });
        return foundRevision(store, revisionId);
      });
    },
  };
}
