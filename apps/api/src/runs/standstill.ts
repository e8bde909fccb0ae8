import type { BodyOf, Run, runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal } from '../refusal.js';
import { mustHold } from './holder.js';
import { clockWords, momentOf } from './moments.js';
import { runsWriter } from './write-store.js';

/** Work stands still, and goes on again; one stop is open at a time. */
export function createStandstill({ uow, newId, timeZone }: Foundation) {
  return {
    async stop(actor: Actor, runId: string, input: BodyOf<typeof runs.stop>): Promise<Run> {
      return uow.write(actor, async (unit) => {
        const store = runsWriter(unit.tx);
        const run = await store.run(runId);
        if (run === null) throw notFound('run', runId, 'params.runId');
        mustHold(actor, run, timeZone);
        const open = openStopOf(run.view);
        if (open !== null) {
          throw new Refusal(
            'NOT_NOW',
            `Work stands still already since ${clockWords(open.startedAt, timeZone)}. Go on first, then say the next stop.`,
            { current: run.view },
          );
        }
        const { at: startedAt, clockAheadS } = momentOf({
          happenedAt: input.happenedAt,
          now: unit.now,
          notBefore: lastEnd(run.view),
        });
        const stop = { id: newId(), cause: input.cause, note: input.note, startedAt };
        await store.openStop({ ...stop, runId });
        const version = run.view.version + 1;
        unit.append({
          type: 'run.stopped',
          subjectType: 'run',
          subjectId: runId,
          version,
          cellId: run.view.cellId,
          after: { cause: input.cause, note: input.note, saidAt: input.happenedAt, clockAheadS },
        });
        const view = { ...stop, version: 1, startedAt: startedAt.toISOString(), endedAt: null };
        return { ...run.view, version, stops: [...run.view.stops, view] };
      });
    },
    async resume(actor: Actor, runId: string, input: BodyOf<typeof runs.resume>): Promise<Run> {
      return uow.write(actor, async (unit) => {
        const store = runsWriter(unit.tx);
        const run = await store.run(runId);
        if (run === null) throw notFound('run', runId, 'params.runId');
        mustHold(actor, run, timeZone);
        const open = openStopOf(run.view);
        if (open === null) {
          throw new Refusal('NOT_NOW', 'Work does not stand still: there is no stop to end.', {
            current: run.view,
          });
        }
        const { at: endedAt, clockAheadS } = momentOf({
          happenedAt: input.happenedAt,
          now: unit.now,
          notBefore: new Date(open.startedAt),
        });
        await store.endStop({ id: open.id, runId }, endedAt);
        const version = run.view.version + 1;
        unit.append({
          type: 'run.resumed',
          subjectType: 'run',
          subjectId: runId,
          version,
          cellId: run.view.cellId,
          after: { cause: open.cause, saidAt: input.happenedAt, clockAheadS },
        });
        return withEnded({ ...run.view, version }, open.id, endedAt);
      });
    },
  };
}

export function openStopOf({ stops }: Run): Run['stops'][number] | null {
  return stops.find(({ endedAt }) => endedAt === null) ?? null;
}

function lastEnd({ startedAt, stops }: Run): Date {
  return new Date(stops.at(-1)?.endedAt ?? startedAt);
}

function withEnded(run: Run, stopId: string, endedAt: Date): Run {
  return {
    ...run,
    stops: run.stops.map((stop) =>
      stop.id === stopId
        ? { ...stop, version: stop.version + 1, endedAt: endedAt.toISOString() }
        : stop,
    ),
  };
}
