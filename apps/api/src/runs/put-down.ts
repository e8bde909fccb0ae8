import type { BodyOf, Run, runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { finishWhenReady } from '../orders/finish.js';
import { openPoints } from '../quality/open-points.js';
import { notFound } from '../refusal.js';
import { refuseUncheckedEnd } from './first-piece-gate.js';
import { mustHold } from './holder.js';
import { keepSetUp, type SetUpKeeper } from './keep-set-up.js';
import { momentOf } from './moments.js';
import { refuseProgramUnread } from './program-said.js';
import { withNote } from './note.js';
import { openStopOf } from './standstill.js';
import type { RunRecord } from './store.js';
import { runsWriter } from './write-store.js';

type PutDownInput = BodyOf<typeof runs.putDown>;
type Writer = ReturnType<typeof runsWriter>;

const secondsPerMinute = 60;

/** Ends a run; the step waits again, or is done when the batch is complete. */
export function createPutDown({ uow, newId, timeZone }: Foundation, parts: SetUpKeeper) {
  return async function putDown(actor: Actor, runId: string, input: PutDownInput): Promise<Run> {
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const { id: personId } = mustHold(actor, run, timeZone);
      const done = input.batchComplete || run.view.stepGoodCount >= run.view.quantity;
      if (done) {
        refuseUncheckedEnd(run);
        const setUp = await parts.keptSetUp(run.stepId, run.view.cellId, unit.tx);
        await refuseProgramUnread(unit, run, setUp);
      }
      const { at: endedAt, clockAheadS } = momentOf({
        happenedAt: input.happenedAt,
        now: unit.now,
        notBefore: lastMoment(run.view),
      });
      const open = openStopOf(run.view);
      if (open !== null) await store.endStop({ id: open.id, runId }, endedAt);
      await store.endRun(runId, { endedAt, ...typed(run.view, input) });
      await store.letGo(run.view.jobStepId, {
        state: done ? 'done' : 'waiting',
        doneAt: done ? endedAt : null,
      });
      const ended = await store.run(runId);
      if (ended === null) throw new Error(`Run ${runId} was ended but is not there.`);
      unit.append({
        type: done ? 'run.completed' : 'run.putDown',
        subjectType: 'run',
        subjectId: runId,
        version: ended.view.version,
        cellId: run.view.cellId,
        after: {
          ...{ goodCount: ended.view.goodCount, scrapCount: ended.view.scrapCount },
          ...{ setUpMin: ended.view.setUpMin, arcS: ended.view.arcS, note: input.note },
          ...{ saidAt: input.happenedAt, clockAheadS },
        },
      });
      if (done) {
        await keepSetUp(unit, parts, { run, personId });
        const { holdPoint, witnessMin } = run;
        await openPoints(unit, { ...run.view, holdPoint, witnessMin }, newId);
        await goOn(unit, store, run, endedAt);
      }
      return ended.view;
    });
  };
}

function lastMoment({ startedAt, stops }: Run): Date {
  const last = stops.at(-1);
  return new Date(last?.endedAt ?? last?.startedAt ?? startedAt);
}

function typed(run: Run, { setUpMin, arcMinTyped, note }: PutDownInput) {
  return {
    ...(setUpMin === null ? {} : { setUpMin }),
    ...(arcMinTyped === null
      ? {}
      : { arcS: arcMinTyped * secondsPerMinute, arcSource: 'typed' as const }),
    ...(note === '' ? {} : { handOverNote: withNote(run, note) }),
  };
}

/** The next step of the job may start; after the last one the job ends, once nothing of it is open. */
async function goOn(unit: Unit, store: Writer, run: RunRecord, at: Date): Promise<void> {
  const [next] = await store.openSteps(run.jobId);
  if (next !== undefined) {
    if (next.state !== 'blocked') return;
    await store.unblock(next.id);
    unit.append({
      type: 'jobStep.unblocked',
      subjectType: 'jobStep',
      subjectId: next.id,
      version: next.version + 1,
      cellId: next.cellId,
      after: { state: 'waiting' },
    });
    return;
  }
  await finishWhenReady(unit, run.jobId, at);
}
