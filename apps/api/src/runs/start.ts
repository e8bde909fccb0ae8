import {
  startIsGiven,
  type BodyOf,
  type Clearer,
  type ReplyOf,
  type Run,
  type runs,
  type StartPoint,
} from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { openAssignments, openOn } from '../assignments/open.js';
import { personFor } from '../assignments/propose.js';
import { shopDay } from '../clock.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { PartsService } from '../parts/service.js';
import type { PeopleService } from '../people/service.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { mustHold } from './holder.js';
import { momentOf } from './moments.js';
import { programSaid } from './program-said.js';
import type { RunRecord } from './store.js';
import { runsWriter } from './write-store.js';

type StartInput = BodyOf<typeof runs.start>;
type Started = ReplyOf<typeof runs.start>;
type Clearers = Pick<Parameters<typeof personFor>[1], 'people' | 'openOf'>;

const nobody: Clearers = { people: [], openOf: new Map() };

const pointWords: Record<StartPoint, { readonly words: string; readonly clearedBy: Clearer }> = {
  part: { words: 'part and revision', clearedBy: 'office' },
  consumables: { words: 'wire and gas', clearedBy: 'office' },
  fixture: { words: 'fixture and torch', clearedBy: 'office' },
  settings: { words: 'settings', clearedBy: 'coordinator' },
  safety: { words: 'extraction and guards', clearedBy: 'manager' },
};

/** Nothing is counted before somebody has confirmed what stands at the cell. */
export function refuseUnstarted({ view }: Pick<RunRecord, 'view'>): void {
  if (startIsGiven(view)) return;
  const first =
    view.start === null
      ? 'nobody has confirmed yet what stands there: part, wire and gas, fixture, settings, extraction. Confirm it first'
      : `${view.start.personCode} found the extraction or the guards not as they must be. Put them right and confirm the start again`;
  throw new Refusal(
    'NOT_NOW',
    `No part of job ${view.jobNumber} (${view.partNumber}) can be counted at ${view.cellCode}: ${first}.`,
    { current: view },
  );
}

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
    const shop = differences.length === 0 ? nobody : await whoCanClear();
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
      words.push(...(await tellOffice(unit, run, { actor, differences, shop })));
      const now = await store.run(runId);
      if (now === null) throw new Error(`Run ${runId} was started but is not there.`);
      return { run: now.view, words };
    });
  };

  async function whoCanClear(): Promise<Clearers> {
    const { people: all } = await people.list();
    return { people: all, openOf: await openOn(database.reader).openByPerson() };
  }

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

  async function tellOffice(
    unit: Unit,
    { view, jobId, stepNumber }: RunRecord,
    told: {
      readonly actor: Actor;
      readonly differences: StartInput['differences'];
      readonly shop: Clearers;
    },
  ): Promise<string[]> {
    const { actor, differences, shop } = told;
    const takerId = actingPerson(actor).id;
    const drafts = differences.flatMap(({ point, note }) => {
      const { words, clearedBy } = pointWords[point];
      const person = personFor(clearedBy, { ...shop, takerId, fitting: [] });
      if (person === null) return [];
      const text = `At ${view.cellCode}, ${words} not as shown: ${note}`;
      const dueOn = shopDay(unit.now, timeZone);
      return [{ stepNumber, topic: 'start' as const, text, person, dueOn }];
    });
    await openAssignments(unit, { id: jobId, number: view.jobNumber }, { drafts, newId });
    return drafts.map(({ person, text }) => `${text}. Told to ${person.code} ${person.name}.`);
  }
}

function notesOf(differences: NonNullable<Run['start']>['differences']): string {
  return differences.map(({ point, note }) => `${pointWords[point].words}: ${note}`).join('; ');
}
