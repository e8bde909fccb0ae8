import type { BodyOf, parts, Revision } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import { changedFields } from '../events/changed-fields.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { foundPart } from './found.js';
import { foundRevision, openDraft, revisionSubject } from './found-revision.js';
import { releaseService } from './release-service.js';
import { refuseImpossibleGrooves } from './groove-rules.js';
import { refuseLabelTaken, refuseRepeatedNumbers } from './revision-rules.js';
import {
  revisionReader,
  revisionWriter,
  type StepFields,
  type WeldFields,
} from './revision-store.js';
import { folded } from './search-words.js';
import { partsReader } from './store.js';

type Files = Pick<FilesService, 'copyUses'>;

export function revisionService(foundation: Foundation, files: Files) {
  return {
    ...revisionReads(foundation),
    ...draftService(foundation, files),
    ...releaseService(foundation),
  };
}

function revisionReads({ database }: Foundation) {
  return {
    /** Any revision, whatever its state: a job keeps the one it was ordered with. */
    async revision(revisionId: string, db: Db = database.reader): Promise<Revision> {
      return foundRevision(revisionReader(db), revisionId);
    },
    /** The revision that may be made today, if it is the one named; null where it is not. */
    async releasedRevision(
      partId: string,
      label: string,
      db: Db = database.reader,
    ): Promise<Revision | null> {
      const released = await revisionReader(db).released(partId);
      return released !== null && folded(released.label) === folded(label) ? released : null;
    },
  };
}

function draftService({ uow, newId }: Foundation, files: Files) {
  return {
    async addRevision(
      actor: Actor,
      partId: string,
      { copyFromRevisionId, ...input }: BodyOf<typeof parts.addRevision>,
    ): Promise<Revision> {
      return uow.write(actor, async (unit) => {
        const store = revisionWriter(unit.tx);
        const part = await foundPart(partsReader(unit.tx), partId);
        const labels = await store.labels(partId);
        refuseLabelTaken(input.label, labels, part.number);
        const source =
          copyFromRevisionId === null
            ? null
            : await foundRevision(store, copyFromRevisionId, 'body.copyFromRevisionId');
        const id = newId();
        await store.addRevision({ ...input, id, partId }, unit.now);
        for (const [from, to] of source === null ? [] : await takeOver(store, source, id, newId))
          await files.copyUses(unit, { type: 'setUp', id: from }, { type: 'setUp', id: to });
        unit.append({
          type: 'revision.added',
          ...revisionSubject(id, 1),
          after: { ...input, copiedFrom: source?.label ?? null },
        });
        return foundRevision(store, id);
      });
    },

    async setWelds(
      actor: Actor,
      revisionId: string,
      { expectedVersion, welds }: BodyOf<typeof parts.setWelds>,
    ): Promise<Revision> {
      refuseRepeatedNumbers(welds, 'welds');
      refuseImpossibleGrooves(welds);
      return uow.write(actor, async (unit) => {
        const store = revisionWriter(unit.tx);
        const before = await openDraft(store, revisionId, expectedVersion);
        await store.setWelds(revisionId, welds, newId);
        await store.changed(revisionId);
        return logged(unit, 'revision.weldsSet', before);
      });
    },

    async setSteps(
      actor: Actor,
      revisionId: string,
      { expectedVersion, steps }: BodyOf<typeof parts.setSteps>,
    ): Promise<Revision> {
      refuseRepeatedNumbers(steps, 'steps');
      return uow.write(actor, async (unit) => {
        const store = revisionWriter(unit.tx);
        const before = await openDraft(store, revisionId, expectedVersion);
        await replaceSteps(store, before, steps, newId);
        await store.changed(revisionId);
        return logged(unit, 'revision.stepsSet', before);
      });
    },
  };
}

type Store = ReturnType<typeof revisionWriter>;

/** Weld list, steps and what is set up by, from another revision. Answers the new id of each set-up. */
async function takeOver(
  store: Store,
  source: Revision,
  revisionId: string,
  newId: () => string,
): Promise<ReadonlyMap<string, string>> {
  const newIds = new Map(source.steps.map((step) => [step.id, newId()]));
  await store.setWelds(revisionId, source.welds, newId);
  await store.addSteps(
    revisionId,
    source.steps.map((step) => ({ ...stepFields(step), id: newIds.get(step.id) ?? newId() })),
  );
  return store.copySetUps(newIds, newId);
}

/** A step that keeps its number keeps its set-ups. */
async function replaceSteps(
  store: Store,
  { id, steps: before }: Revision,
  steps: readonly StepFields[],
  newId: () => string,
): Promise<void> {
  const idOf = new Map(before.map((step) => [step.number, step.id]));
  const kept = new Set(steps.map(({ number }) => number));
  await store.removeSteps(before.filter(({ number }) => !kept.has(number)).map((step) => step.id));
  for (const step of steps) {
    const stepId = idOf.get(step.number);
    if (stepId !== undefined) await store.changeStep(stepId, step);
  }
  const added = steps.filter(({ number }) => !idOf.has(number));
  await store.addSteps(
    id,
    added.map((step) => ({ ...step, id: newId() })),
  );
}

async function logged(
  unit: Unit,
  type: 'revision.weldsSet' | 'revision.stepsSet',
  before: Revision,
): Promise<Revision> {
  const after = await foundRevision(revisionReader(unit.tx), before.id);
  unit.append({
    type,
    ...revisionSubject(after.id, after.version),
    ...changedFields(lists(before), lists(after)),
  });
  return after;
}

/** What the lists say, without the ids of their rows. */
function lists({ welds, steps }: Revision): { welds: WeldFields[]; steps: StepFields[] } {
  return {
    welds: welds.map(({ id: _id, ...weld }) => weld),
    steps: steps.map(stepFields),
  };
}

function stepFields({
  id: _id,
  version: _version,
  setUps: _setUps,
  ...fields
}: Revision['steps'][number]): StepFields {
  return fields;
}
