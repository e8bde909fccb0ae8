import type { BodyOf, parts } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import { changedFields } from '../events/changed-fields.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField, stale } from '../refusal.js';
import {
  toolingReader,
  toolingWriter,
  type FixtureView,
  type ProgramView,
} from './tooling-store.js';

/** What holds the part and what the robot runs: references only, the tool never touches a robot. */
export function toolingService(foundation: Foundation) {
  return { ...fixtureService(foundation), ...programService(foundation) };
}

function fixtureService({ database, uow, newId }: Foundation) {
  return {
    async fixtures(): Promise<{ fixtures: FixtureView[] }> {
      return { fixtures: await toolingReader(database.reader).fixtures() };
    },

    async addFixture(actor: Actor, input: BodyOf<typeof parts.addFixture>): Promise<FixtureView> {
      return uow.write(actor, async (unit) => {
        const store = toolingWriter(unit.tx);
        await refuseCodeTaken(store, input.code);
        const fixture = await store.addFixture(newId(), input);
        unit.append({ type: 'fixture.added', ...subject(fixture), after: input });
        return fixture;
      });
    },

    async editFixture(
      actor: Actor,
      fixtureId: string,
      { expectedVersion, ...changes }: BodyOf<typeof parts.editFixture>,
    ): Promise<FixtureView> {
      return uow.write(actor, async (unit) => {
        const store = toolingWriter(unit.tx);
        const before = await store.fixture(fixtureId);
        if (before === null) throw notFound('fixture', fixtureId);
        if (before.version !== expectedVersion) throw stale('fixture', before, expectedVersion);
        if (changes.code !== undefined && changes.code !== before.code)
          await refuseCodeTaken(store, changes.code);
        const fixture = await store.changeFixture(fixtureId, changes);
        unit.append({
          type: 'fixture.changed',
          ...subject(fixture),
          ...changedFields(before, changes as Partial<FixtureView>),
        });
        return fixture;
      });
    },

    /** Where a fixture went after a run and how it is, in the commit of the area that asked. */
    async putFixtureAway(
      unit: Unit,
      fixtureId: string,
      put: Pick<FixtureView, 'place' | 'condition'>,
    ): Promise<void> {
      const store = toolingWriter(unit.tx);
      const before = await store.fixture(fixtureId);
      if (before === null) throw notFound('fixture', fixtureId);
      const fixture = await store.changeFixture(fixtureId, put);
      unit.append({
        type: 'fixture.putAway',
        ...subject(fixture),
        ...changedFields<Partial<FixtureView>>(before, put),
      });
    },
  };
}

function programService({ database, uow, newId }: Foundation) {
  return {
    async programs(): Promise<{ programs: ProgramView[] }> {
      return { programs: await toolingReader(database.reader).programs() };
    },

    async addProgram(actor: Actor, input: BodyOf<typeof parts.addProgram>): Promise<ProgramView> {
      return uow.write(actor, async (unit) => {
        const store = toolingWriter(unit.tx);
        const { name, revision, cellId } = input;
        const cellCode = await store.cellCode(cellId);
        if (cellCode === null) throw notFound('cell', cellId, 'body.cellId');
        if ((await store.programAt({ name, revision, cellId })) !== null) {
          throw refuseField(
            'DUPLICATE',
            `Program ${name} revision ${revision} is on file for ${cellCode} already. Record the next revision.`,
            'body.revision',
            revision,
            `a revision that ${name} does not have at ${cellCode}`,
          );
        }
        const program = await store.addProgram(newId(), input);
        unit.append({
          type: 'program.added',
          subjectType: 'program',
          subjectId: program.id,
          version: program.version,
          cellId,
          after: input,
        });
        return program;
      });
    },
  };
}

function subject({ id, version }: FixtureView) {
  return { subjectType: 'fixture', subjectId: id, version } as const;
}

async function refuseCodeTaken(
  store: ReturnType<typeof toolingReader>,
  code: string,
): Promise<void> {
  const taken = await store.fixtureCoded(code);
  if (taken === null) return;
  throw refuseField(
    'DUPLICATE',
    `There is a fixture ${code} already, at ${taken.place}. Choose another code.`,
    'body.code',
    code,
    'a code that no other fixture has',
  );
}
