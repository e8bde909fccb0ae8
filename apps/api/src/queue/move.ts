import type { BodyOf, QueuedStep, queue } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { shopDay } from '../clock.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { beyondLimits, type CellLimits } from './cell-limits.js';
import { lateOn } from './lane.js';
import { rankFor } from './rank-for.js';
import { writer, type PlaceRecord } from './store.js';

type MoveInput = BodyOf<typeof queue.move>;

/** Puts a waiting or blocked step elsewhere in the run queues. */
export function createMoves({ uow, timeZone }: Foundation) {
  /** Within an open unit, so that several moves land in one commit. */
  async function moveWithin(unit: Unit, jobStepId: string, input: MoveInput): Promise<QueuedStep> {
    const store = writer(unit.tx);
    const before = await store.place(jobStepId);
    const step = await store.step(jobStepId);
    if (before === null || step === null) throw notFound('queued step', jobStepId);
    const today = shopDay(unit.now, timeZone);
    const { expectedVersion } = input;
    if (before.version !== expectedVersion) {
      throw stale('queued step', lateOn(step, today), expectedVersion);
    }
    mustBeMovable(before, step.holder?.personCode ?? null);
    mustFit(before, await store.cells(), input.cellId);
    const rank = await rankFor(store, before.id, { ...input, field: 'body.beforeStepId' });
    const place = { cellId: input.cellId, rank };
    await store.setPlace({ id: before.id, version: expectedVersion }, place);
    unit.append({
      type: 'jobStep.moved',
      subjectType: 'jobStep',
      subjectId: before.id,
      version: expectedVersion + 1,
      cellId: input.cellId,
      before: { cellId: before.cellId, rank: before.rank },
      after: { ...place, beforeStepId: input.beforeStepId },
      reason: input.reason,
    });
    return lateOn({ ...step, version: expectedVersion + 1 }, today);
  }

  return {
    moveWithin,
    async move(actor: Actor, jobStepId: string, input: MoveInput): Promise<QueuedStep> {
      return uow.write(actor, async (unit) => moveWithin(unit, jobStepId, input));
    },
  };
}

function mustBeMovable({ state, jobNumber, stepName }: PlaceRecord, holder: string | null): void {
  if (state === 'waiting' || state === 'blocked') return;
  const why = {
    held: `is held by ${holder ?? 'somebody'}. Only a step that waits can be moved: let it be put down first`,
    done: 'is done. Only a step that waits can be moved',
    cancelled: 'is cancelled. Only a step that waits can be moved',
  }[state];
  throw new Refusal('NOT_NOW', `${stepName} of job ${jobNumber} ${why}.`);
}

function mustFit(
  step: PlaceRecord,
  cells: readonly (CellLimits & { id: string; kind: 'booth' | 'robot'; active: boolean })[],
  cellId: string,
): void {
  const cell = cells.find(({ id }) => id === cellId);
  if (cell === undefined) throw notFound('cell', cellId, 'body.cellId');
  const fits = (one: (typeof cells)[number]) =>
    one.active && one.kind === step.stepKind && beyondLimits(step, one) === null;
  // Where it stands already it only changes its place in the queue.
  if (fits(cell) || cell.id === step.cellId) return;
  const allowed = cells
    .filter(fits)
    .map(({ code }) => code)
    .join(', ');
  const ofKind = cell.kind === step.stepKind ? beyondLimits(step, cell) : null;
  const wrong = cell.active
    ? (ofKind ?? `${cell.code} is a ${cell.kind}`)
    : `${cell.code} is out of use`;
  throw refuseField(
    'DOES_NOT_FIT',
    `${step.stepName} of job ${step.jobNumber} is made at a ${step.stepKind}, but ${wrong}. Choose one of ${allowed || 'no cell yet: add one first'}.`,
    'body.cellId',
    cell.code,
    allowed,
  );
}
