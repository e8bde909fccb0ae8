import type { BodyOf, ReplyOf, runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { PartsService } from '../parts/service.js';
import type { PeopleService } from '../people/service.js';
import { notFound, refuseField } from '../refusal.js';
import { mustHold } from './holder.js';
import { momentOf } from './moments.js';
import { programSaid } from './program-said.js';
import { notesOf, tellOffice, whoCanClear } from './start-told.js';
import type { RunRecord } from './store.js';
import { runsWriter } from './write-store.js';

type StartInput = BodyOf<typeof runs.start>;
type Started = ReplyOf<typeof runs.start>;

/** What stands at the cell is confirmed before the first count; what is not as shown goes to somebody in the office. */
export function createStart(
  { database, uow, newId, timeZone }: Foundation,
  {
    parts,
    people,
  }: { parts: Pick<PartsService, 'keptSetUp'>; people: Pick<PeopleService, 'list'> },
) {
  return async function start(actor: Actor, runId: string, input: StartInput): Promise<Started> {
    const { differences, program } = input;
    const office = await whoCanClear(database.reader, people, differences);
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const person = mustHold(actor, run, timeZone);
      const words = await programAtStart(unit, { run, program, personId: person.id });
      const { at, clockAheadS } = momentOf({
        happenedAt: input.happenedAt,
        now: unit.now,
        notBefore: run.startedAt,
      });
      const said = { at: at.toISOString(), personCode: person.code, differences };
      await store.sayStart(runId, { ...said, at, programAtStart: program?.revision ?? null });
      unit.append({
        type: 'run.started',
        ...{ subjectType: 'run', subjectId: runId, cellId: run.view.cellId },
        version: run.view.version + 1,
        before: { start: run.view.start },
        after: {
          ...said,
          program: program?.revision ?? null,
          saidAt: input.happenedAt,
          clockAheadS,
        },
        reason: differences.length === 0 ? null : notesOf(differences),
        meaning: 'checked',
      });
      const told = { office, differences, takerId: person.id, newId, timeZone };
      words.push(...(await tellOffice(unit, run, told)));
      const now = await store.run(runId);
      if (now === null) throw new Error(`Run ${runId} was started but is not there.`);
      return { run: now.view, words };
    });
  };

  /** A set-up that names a program needs the revision that the robot has loaded. */
  async function programAtStart(
    unit: Unit,
    { run, program, personId }: { run: RunRecord; personId: string } & Pick<StartInput, 'program'>,
  ): Promise<string[]> {
    const setUp = await parts.keptSetUp(run.stepId, run.view.cellId, unit.tx);
    if (program === null) {
      if (setUp === null || setUp.programName === null) return [];
      throw refuseField(
        'NEEDS_REASON',
        `The set-up runs program ${setUp.programName}. Read at the robot which revision is loaded and say it at the start.`,
        'body.program',
        null,
        'the revision that is loaded',
      );
    }
    const said = { ...program, noteField: 'body.program.note' };
    return programSaid(unit, { run, setUp, personId, newId }, said);
  }
}
