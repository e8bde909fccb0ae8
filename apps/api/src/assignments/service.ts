import type { Assignment, assignments as routes, BodyOf, QueryOf } from '@tackboard/contract';
import { actingPerson, type ActingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { PeopleService } from '../people/service.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { createSettling, type JobsNow } from './settle.js';
import { assignmentsReader, assignmentsWriter, type AssignmentRecord } from './store.js';

type Routes = typeof routes;

export type AssignmentsService = ReturnType<typeof createAssignmentsService>;

/** What jobs lack, given to people with a day: changed by the office, closed by the person or by itself. */
export function createAssignmentsService(
  foundation: Foundation,
  { people, orders }: { readonly people: Pick<PeopleService, 'list'>; readonly orders: JobsNow },
) {
  const { database, uow, clock, timeZone } = foundation;
  const read = assignmentsReader(database.reader);
  const today = () => shopDay(clock.now(), timeZone);
  const settling = createSettling(foundation, orders);

  return {
    async list(query: QueryOf<Routes['list']>): Promise<{ assignments: Assignment[] }> {
      const rows = await read.list(query);
      return { assignments: await viewsOf(read, rows, today()) };
    },

    async edit(actor: Actor, id: string, input: BodyOf<Routes['edit']>): Promise<Assignment> {
      const { people: all } = await people.list();
      return uow.write(actor, async (unit) => {
        const store = assignmentsWriter(unit.tx);
        const found = await current(unit, id, { expected: input.expectedVersion, today: today() });
        refuseClosed(found);
        const { personId = found.personId, dueOn = found.dueOn } = input;
        const person = all.find((each) => each.id === personId);
        if (person === undefined) throw notFound('person', personId, 'body.personId');
        if (!person.active) {
          throw refuseField(
            'DOES_NOT_FIT',
            `${person.name} no longer works here. Choose somebody who does.`,
            ...(['body.personId', person.code, 'an active person'] as const),
          );
        }
        await store.set({ id, version: found.version }, { personId, dueOn });
        unit.append({
          type: 'assignment.changed',
          ...{ subjectType: 'assignment', subjectId: id, version: found.version + 1 },
          before: { person: found.personCode, dueOn: found.dueOn },
          after: { person: person.code, dueOn },
          reason: input.reason,
        });
        return written(unit, id, today());
      });
    },

    async clear(actor: Actor, id: string, input: BodyOf<Routes['clear']>): Promise<Assignment> {
      return uow.write(actor, async (unit) => {
        const person = actingPerson(actor);
        const found = await current(unit, id, { expected: input.expectedVersion, today: today() });
        refuseClosed(found);
        refuseStranger(found, person);
        await assignmentsWriter(unit.tx).set(
          { id, version: found.version },
          { closedAt: unit.now, closedBy: person.id, closedAs: 'cleared', note: input.note },
        );
        unit.append({
          type: 'assignment.cleared',
          ...{ subjectType: 'assignment', subjectId: id, version: found.version + 1 },
          before: { closedAs: null },
          after: { closedAs: 'cleared', jobNumber: found.jobNumber, topic: found.topic },
          reason: input.note === '' ? null : input.note,
          meaning: 'checked',
        });
        return written(unit, id, today());
      });
    },

    /** Closes what is met or no longer needed; answers how many. */
    settle: settling.settle,
    /** Ends the watching. */
    close: settling.close,
  };
}

const mayStandIn: readonly ActingPerson['role'][] = ['office', 'manager'];

function refuseStranger(found: AssignmentRecord, person: ActingPerson): void {
  if (found.personId === person.id || mayStandIn.includes(person.role)) return;
  throw new Refusal(
    'NOT_ALLOWED',
    `This was given to ${found.personCode} ${found.personName}. They close it, or the office does for them.`,
  );
}

function refuseClosed({ closedAs, jobNumber }: AssignmentRecord): void {
  if (closedAs === null) return;
  const words = {
    cleared: 'is cleared already',
    met: 'closed by itself: it is there now',
    ended: 'ended: the step is made or was taken off',
  }[closedAs];
  throw new Refusal('NOT_NOW', `This assignment of job ${jobNumber} ${words}.`);
}

type Reader = Pick<ReturnType<typeof assignmentsReader>, 'names'>;

async function current(
  unit: Unit,
  id: string,
  { expected, today }: { expected: number; today: string },
): Promise<AssignmentRecord> {
  const store = assignmentsReader(unit.tx);
  const found = await store.byId(id);
  if (found === null) throw notFound('assignment', id, 'params.assignmentId');
  if (found.version !== expected)
    throw stale('assignment', await viewOf(store, found, today), expected);
  return found;
}

async function written(unit: Unit, id: string, today: string): Promise<Assignment> {
  const store = assignmentsReader(unit.tx);
  const row = await store.byId(id);
  if (row === null) throw new Error(`Assignment ${id} was written but is not there.`);
  return viewOf(store, row, today);
}

async function viewOf(read: Reader, row: AssignmentRecord, today: string): Promise<Assignment> {
  const [view] = await viewsOf(read, [row], today);
  if (view === undefined) throw new Error('One row gives one view.');
  return view;
}

async function viewsOf(
  read: Reader,
  rows: readonly AssignmentRecord[],
  today: string,
): Promise<Assignment[]> {
  const names = await read.names(rows.map(({ closedBy }) => closedBy));
  return rows.map((row) => ({
    ...row,
    overdue: row.closedAt === null && row.dueOn < today,
    openedAt: row.openedAt.toISOString(),
    closedAt: row.closedAt?.toISOString() ?? null,
    closedBy: row.closedBy && (names.get(row.closedBy) ?? row.closedBy),
  }));
}
