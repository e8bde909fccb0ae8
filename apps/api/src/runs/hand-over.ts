import { access, mayCall, type BodyOf, type ReplyOf, type runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { Assessment } from '../queue/assess.js';
import type { QueueService } from '../queue/service.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { mustHold } from './holder.js';
import { withNote } from './note.js';
import { openStopOf } from './standstill.js';
import { runsReader, type RunRecord } from './store.js';
import { runsWriter } from './write-store.js';

type HandOverInput = BodyOf<typeof runs.handOver>;
type HandedOver = ReplyOf<typeof runs.handOver>;
type Writer = ReturnType<typeof runsWriter>;
type Judged = Assessment & { readonly card: HandedOver['card'] };
type Receiver = NonNullable<Awaited<ReturnType<Writer['person']>>>;

/** Gives a held step to another person: their run begins, the step is never free in between. */
export function createHandOver(foundation: Foundation, queue: QueueService) {
  const { database, uow, newId, timeZone } = foundation;
  return async function handOver(
    actor: Actor,
    runId: string,
    input: HandOverInput,
  ): Promise<HandedOver> {
    const judged = await judge(runId, input.toPersonId);
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      mustHold(actor, run, timeZone);
      const receiver = mustReceive(await store.person(input.toPersonId), run, input);
      mustBeQualified(judged);
      const id = await passOn(unit, { store, run, receiver, note: input.note });
      const next = await store.run(id);
      if (next === null || judged === null) {
        throw new Error(`Run ${id} was written but is not there.`);
      }
      return { run: next.view, card: heldBy(judged.card, next) };
    });
  };

  /** Read before the write begins; who may take over does not change with who holds it. */
  async function judge(runId: string, toPersonId: string): Promise<Judged | null> {
    const store = runsReader(database.reader);
    const run = await store.run(runId);
    const person = await store.person(toPersonId);
    if (run === null || person === null) return null;
    const [found] = await queue.assess([run.view.jobStepId], person);
    return found === undefined ? null : { ...found, card: await queue.cardFor(found) };
  }

  async function passOn(
    unit: Unit,
    {
      store,
      run,
      receiver,
      note,
    }: { store: Writer; run: RunRecord; receiver: Receiver; note: string },
  ): Promise<string> {
    const open = openStopOf(run.view);
    if (open !== null) await store.endStop({ id: open.id, runId: run.view.id }, unit.now);
    await store.endRun(run.view.id, { endedAt: unit.now, handOverNote: withNote(run.view, note) });
    const id = newId();
    const { jobStepId, cellId } = run.view;
    await store.passOn(
      {
        ...{ id, jobStepId, cellId, personId: receiver.id, wpsId: run.wpsId },
        ...{ setUpId: run.setUpId, startedAt: unit.now, arcSPerPart: run.arcSPerPart },
      },
      run.view,
    );
    unit.append({
      type: 'run.handedOver',
      subjectType: 'run',
      subjectId: id,
      version: 1,
      cellId,
      before: { runId: run.view.id, personCode: run.view.personCode },
      after: { personCode: receiver.code, jobNumber: run.view.jobNumber },
      reason: note,
    });
    return id;
  }
}

function heldBy(card: HandedOver['card'], { view }: RunRecord): HandedOver['card'] {
  const { id: runId, personId, personCode, personName, startedAt: since } = view;
  return {
    ...card,
    step: { ...card.step, holder: { runId, personId, personCode, personName, since } },
  };
}

function mustReceive(
  person: Receiver | null,
  { view }: RunRecord,
  { toPersonId }: HandOverInput,
): Receiver {
  const field = 'body.toPersonId';
  if (person === null) throw notFound('person', toPersonId, field);
  const may = mayCall(access.cell, {
    person: { role: person.role, coordinator: false },
    tablet: false,
  });
  if (!person.active || !may) {
    const why = person.active ? `works in the role ${person.role}` : 'no longer works here';
    throw refuseField(
      'NOT_NOW',
      `${person.code} ${person.name} ${why} and cannot hold a step. Choose somebody who welds.`,
      field,
      person.code,
      'an active person with the role welder, qa or manager',
    );
  }
  if (person.id === view.personId) {
    const message = `${person.code} ${person.name} holds this step already. Choose another person.`;
    throw refuseField('NOT_NOW', message, field, person.code, 'another person');
  }
  return person;
}

function mustBeQualified(judged: Judged | null): void {
  const line = judged?.readiness.lines.find(({ rule }) => rule === 'person');
  const passes =
    line === undefined ||
    line.strength === 'pass' ||
    (line.strength === 'gate' && line.overriddenBy !== null);
  if (judged === null || passes) return;
  throw new Refusal('DOES_NOT_FIT', `Not handed over. ${line.text}`, {
    current: { fit: judged.readiness.fit.answer, ready: judged.readiness.lines },
  });
}
