import type { BodyOf, Run, runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { mustHold } from './holder.js';
import { momentOf } from './moments.js';
import { runsWriter } from './write-store.js';

/** Keeps a line for whoever goes on; lines that were written before stay. */
export function createNote({ uow, timeZone }: Foundation) {
  return async function note(
    actor: Actor,
    runId: string,
    input: BodyOf<typeof runs.note>,
  ): Promise<Run> {
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      mustHold(actor, run, timeZone);
      const { at, clockAheadS } = momentOf({
        happenedAt: input.happenedAt,
        now: unit.now,
        notBefore: run.startedAt,
      });
      const handOverNote = withNote(run.view, input.text);
      await store.setNote(runId, handOverNote);
      const version = run.view.version + 1;
      unit.append({
        type: 'run.noted',
        subjectType: 'run',
        subjectId: runId,
        version,
        cellId: run.view.cellId,
        after: {
          ...{ text: input.text, happenedAt: at.toISOString() },
          ...{ saidAt: input.happenedAt, clockAheadS },
        },
      });
      return { ...run.view, version, handOverNote };
    });
  };
}

/** The note of a run with one more line. */
export function withNote({ handOverNote }: Pick<Run, 'handOverNote'>, line: string): string {
  return handOverNote === null ? line : `${handOverNote}\n${line}`;
}
