import type { BodyOf, parts, SetUp } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { changedFields } from '../events/changed-fields.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { fieldsOf, setUpReader, setUpWriter, type SetUpFields } from './set-up-store.js';

/** Photos go along to the set-up that takes over; the one before keeps its own. */
type Files = Pick<FilesService, 'copyUses'>;

export function setUpService({ database, uow, newId }: Foundation, files: Files) {
  async function takePhotos(unit: Unit, before: SetUp | null, id: string): Promise<void> {
    if (before !== null)
      await files.copyUses(unit, { type: 'setUp', id: before.id }, { type: 'setUp', id });
  }

  return {
    /** The set-up kept for a step at a cell; inside another area's transaction when it passes it. */
    async keptSetUp(
      stepId: string,
      cellId: string,
      db: Db = database.reader,
    ): Promise<SetUp | null> {
      return setUpReader(db).current(stepId, cellId);
    },

    /** Keeps the set-up that a good run ended with, in the commit that closes its batch. */
    async freezeFromRun(
      unit: Unit,
      {
        setUp,
        runId,
        frozenBy,
      }: {
        setUp: SetUpFields & Pick<SetUp, 'stepId' | 'programName'>;
        runId: string;
        frozenBy: string;
      },
    ): Promise<void> {
      const store = setUpWriter(unit.tx);
      const before = await store.current(setUp.stepId, setUp.cellId);
      const fields = { ...fieldsOf(setUp), programId: await store.programOf(setUp) };
      const id = newId();
      const { stepId } = setUp;
      const row = { ...fields, id, stepId, frozenBy, frozenAt: unit.now, frozenFromRunId: runId };
      await store.freeze(row);
      await takePhotos(unit, before, id);
      unit.append({
        type: 'setUp.frozen',
        subjectType: 'setUp',
        subjectId: id,
        version: 1,
        cellId: setUp.cellId,
        ...(before === null ? { after: fields } : changedFields<SetUpFields>(before, fields)),
      });
    },

    async freezeSetUp(
      actor: Actor,
      stepId: string,
      input: BodyOf<typeof parts.freezeSetUp>,
    ): Promise<SetUp> {
      return uow.write(actor, async (unit) => {
        const store = setUpWriter(unit.tx);
        await refuseUnknown(store, stepId, input);
        const before = await store.current(stepId, input.cellId);
        const id = newId();
        const frozenBy = actingPerson(actor).id;
        await store.freeze({ ...input, id, stepId, frozenBy, frozenAt: unit.now });
        await takePhotos(unit, before, id);
        unit.append({
          type: 'setUp.frozen',
          subjectType: 'setUp',
          subjectId: id,
          version: 1,
          cellId: input.cellId,
          ...(before === null ? { after: input } : changedFields<SetUpFields>(before, input)),
        });
        const frozen = await store.current(stepId, input.cellId);
        if (frozen === null) throw notFound('set-up', id);
        return frozen;
      });
    },
  };
}

type Store = ReturnType<typeof setUpReader>;

/** Everything the set-up points at must be on file, and be what its field says. */
async function refuseUnknown(store: Store, stepId: string, input: SetUpFields): Promise<void> {
  const step = await store.step(stepId);
  if (step === null) throw notFound('step', stepId, 'params.stepId');
  const cell = await store.cell(input.cellId);
  if (cell === null) throw notFound('cell', input.cellId, 'body.cellId');
  if (cell.kind !== step.cellKind) {
    throw refuseField(
      'INVALID',
      `Step ${step.number} (${step.name}) is made at a ${step.cellKind}, ${cell.code} is a ${cell.kind}. Choose a cell of the step's kind.`,
      'body.cellId',
      input.cellId,
      `a cell of kind ${step.cellKind}`,
    );
  }
  await refuseUnknownItem(store, input.wireItemId, ['wire', 'electrode'], 'wireItemId');
  await refuseUnknownItem(store, input.gasItemId, ['gas'], 'gasItemId');
  await refuseUnknownProgram(store, input);
  if (input.fixtureId !== null && !(await store.fixtureExists(input.fixtureId)))
    throw notFound('fixture', input.fixtureId, 'body.fixtureId');
}

async function refuseUnknownItem(
  store: Store,
  itemId: string | null,
  kinds: readonly string[],
  name: 'wireItemId' | 'gasItemId',
): Promise<void> {
  if (itemId === null) return;
  const item = await store.item(itemId);
  if (item === null) throw notFound(kinds[0] ?? 'consumable', itemId, `body.${name}`);
  if (kinds.includes(item.kind)) return;
  throw refuseField(
    'INVALID',
    `${item.name} is a ${item.kind}. Choose ${kinds.join(' or ')}.`,
    `body.${name}`,
    itemId,
    `a consumable of kind ${kinds.join(' or ')}`,
  );
}

async function refuseUnknownProgram(store: Store, input: SetUpFields): Promise<void> {
  if (input.programId === null) return;
  const program = await store.program(input.programId);
  if (program === null) throw notFound('program', input.programId, 'body.programId');
  if (program.cellId === input.cellId) return;
  throw refuseField(
    'INVALID',
    `Program ${program.name} belongs to ${program.cell.code}. Choose one of the set-up's own cell, or record it there.`,
    'body.programId',
    input.programId,
    'a program of the same cell',
  );
}
