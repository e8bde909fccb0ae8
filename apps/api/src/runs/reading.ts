import { WpsRanges, type ReadingInput, type ReplyOf, type runs } from '@tackboard/contract';
import type { PolicyTable } from '@tackboard/calc';
import type { Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { dayWords } from '../orders/day-words.js';
import type { PolicyService } from '../policy/service.js';
import { notFound, refuseField } from '../refusal.js';
import { mustHold } from './holder.js';
import { momentOf } from './moments.js';
import { answerReading, type ReadingAnswer } from './reading-words.js';
import type { RunRecord } from './store.js';
import { runsWriter } from './write-store.js';

type Writer = ReturnType<typeof runsWriter>;

/** Records measured values as typed and answers them against the procedure of the run. */
export function createRead(
  { uow, newId, timeZone }: Foundation,
  policy: Pick<PolicyService, 'table'>,
) {
  return async function read(
    actor: Actor,
    runId: string,
    { happenedAt: saidAt, ...input }: ReadingInput,
  ): Promise<ReplyOf<typeof runs.read>> {
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const person = mustHold(actor, run, timeZone);
      const answer = await answerOf(store, run, { input, policy: await policy.table(unit.tx) });
      const overdue = await overdueWords(store, input.instrument, shopDay(unit.now, timeZone));
      const { at: happenedAt, clockAheadS } = momentOf({
        happenedAt: saidAt,
        now: unit.now,
        notBefore: run.startedAt,
      });
      const row = {
        ...{ ...input, id: newId(), runId, at: unit.now, happenedAt },
        ...{ result: answer.result, personId: person.id },
      };
      await store.addReading(row);
      const words = [...answer.words, ...overdue];
      unit.append({
        type: 'run.read',
        subjectType: 'run',
        subjectId: runId,
        version: run.view.version + 1,
        cellId: run.view.cellId,
        after: { ...input, result: answer.result, words, saidAt, clockAheadS },
      });
      const reading = {
        ...{ ...row, at: unit.now.toISOString(), happenedAt: happenedAt.toISOString() },
        personCode: person.code,
      };
      return {
        run: {
          ...run.view,
          version: run.view.version + 1,
          readings: [...run.view.readings, reading],
        },
        lines: answer.lines,
        words,
      };
    });
  };
}

async function answerOf(
  store: Writer,
  run: RunRecord,
  { input, policy }: { input: Omit<ReadingInput, 'happenedAt'>; policy: PolicyTable },
): Promise<ReadingAnswer> {
  const welds = await store.welds(run.revisionId, run.stepNumber);
  const weld = welds.find(({ number }) => number === input.weldNumber);
  if (input.weldNumber !== null && weld === undefined) {
    const allowed = welds.map(({ number }) => number).join(', ') || 'none: leave it empty';
    throw refuseField(
      'NOT_FOUND',
      `This step has no weld ${input.weldNumber}. It makes: ${allowed}.`,
      'body.weldNumber',
      input.weldNumber,
      allowed,
    );
  }
  const ranges = run.wpsId === null ? null : await store.wpsRanges(run.wpsId);
  return answerReading({
    readings: input,
    wps:
      ranges === null ? null : { label: run.view.wpsLabel ?? '', ranges: WpsRanges.parse(ranges) },
    process: (weld ?? welds[0])?.process ?? null,
    coded: run.coded,
    policy,
  });
}

async function overdueWords(
  store: Writer,
  instrument: string | null,
  today: string,
): Promise<string[]> {
  if (instrument === null) return [];
  const dueOn = await store.instrumentDueOn(instrument);
  return dueOn !== null && dueOn < today
    ? [`Instrument ${instrument} was due for its check on ${dayWords(dueOn)}.`]
    : [];
}
