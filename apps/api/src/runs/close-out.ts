import type { BodyOf, setUpMemory } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { PartsService } from '../parts/service.js';
import { notFound, refuseField } from '../refusal.js';
import { mustHold } from './holder.js';
import { memoryWriter } from './memory-store.js';
import { programSaid } from './program-said.js';
import { runsReader } from './store.js';

type Parts = Pick<PartsService, 'keptSetUp' | 'putFixtureAway'>;
type ProgramInput = BodyOf<typeof setUpMemory.program>;
type CloseInput = BodyOf<typeof setUpMemory.closeOut>;

/** What is asked at the start and at the close of a run, so that the next return starts from what was true. */
export function createCloseOut({ uow, newId, timeZone }: Foundation, parts: Parts) {
  async function held(unit: Unit, actor: Actor, runId: string) {
    const run = await runsReader(unit.tx).run(runId);
    if (run === null) throw notFound('run', runId, 'params.runId');
    const { id: personId } = mustHold(actor, run, timeZone);
    const setUp = await parts.keptSetUp(run.stepId, run.view.cellId, unit.tx);
    return { run, setUp, personId, newId };
  }

  return {
    async program(actor: Actor, runId: string, { revision, note }: ProgramInput) {
      return uow.write(actor, async (unit) => {
        const facts = await held(unit, actor, runId);
        const said = { revision, note, noteField: 'body.note' };
        const words = await programSaid(unit, facts, said);
        await memoryWriter(unit.tx).say(runId, { programAtStart: revision });
        unit.append({
          type: 'run.programSeen',
          ...{ subjectType: 'run', subjectId: runId, cellId: facts.run.view.cellId },
          version: facts.run.view.version + 1,
          after: { at: 'start', revision },
        });
        return { words };
      });
    },

    async closeOut(actor: Actor, runId: string, input: CloseInput) {
      return uow.write(actor, async (unit) => {
        const facts = await held(unit, actor, runId);
        const { programRevision, programNote, fixture, watchOuts } = input;
        const words: string[] = [];
        if (programRevision !== null) {
          const said = {
            ...{ revision: programRevision, note: programNote },
            noteField: 'body.programNote',
          };
          words.push(...(await programSaid(unit, facts, said)));
        }
        if (fixture !== null) {
          const { fixtureId, fixtureCode } = facts.setUp ?? {};
          if (fixtureId === undefined || fixtureId === null) throw noFixture(fixture.place);
          await parts.putFixtureAway(unit, fixtureId, fixture);
          words.push(`Fixture ${fixtureCode} is at ${fixture.place}, ${fixture.condition}.`);
        }
        await memoryWriter(unit.tx).say(runId, {
          ...(programRevision === null ? {} : { programAtClose: programRevision }),
          ...(watchOuts === null ? {} : { watchOuts }),
          closedOutAt: unit.now,
        });
        unit.append({
          type: 'run.closedOut',
          ...{ subjectType: 'run', subjectId: runId, cellId: facts.run.view.cellId },
          version: facts.run.view.version + 1,
          after: { programRevision, fixture, watchOuts },
          reason: programNote,
        });
        return { words };
      });
    },
  };
}

function noFixture(place: string) {
  return refuseField(
    'NOT_NOW',
    'The set-up names no fixture, so there is none to put away. Leave the place empty, or let the office name the fixture.',
    'body.fixture',
    place,
    'nothing',
  );
}
