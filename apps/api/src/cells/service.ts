import type { BodyOf, Cell, cells, QueryOf, ReplyOf } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import { shopDay } from '../clock.js';
import { changedFields } from '../events/changed-fields.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { calendarFaults } from './calendar-rules.js';
import { workingWindows } from './planned-time.js';
import { cellsReader, cellsWriter } from './store.js';

const msPerDay = 86_400_000;

export type CellsService = ReturnType<typeof createCellsService>;

export function createCellsService(foundation: Foundation) {
  const { database, uow, newId } = foundation;
  return {
    hours: createHours(foundation),

    async list(db: Db = database.reader): Promise<{ cells: Cell[] }> {
      return { cells: await cellsReader(db).cells() };
    },

    /** Refuses an unknown cell, naming the field it was given in. */
    async get(
      cellId: string,
      { field, db = database.reader }: { field?: string; db?: Db } = {},
    ): Promise<Cell> {
      return foundCell(cellsReader(db), cellId, field);
    },

    async add(actor: Actor, input: BodyOf<typeof cells.add>): Promise<Cell> {
      return uow.write(actor, async (unit) => {
        const store = cellsWriter(unit.tx);
        await refuseCodeTaken(store, input.code);
        const id = newId();
        await store.addCell(id, input, unit.now);
        unit.append({ type: 'cell.added', ...subject(id, 1), after: input });
        return foundCell(store, id);
      });
    },

    async edit(
      actor: Actor,
      cellId: string,
      { expectedVersion, ...changes }: BodyOf<typeof cells.edit>,
    ): Promise<Cell> {
      return uow.write(actor, async (unit) => {
        const store = cellsWriter(unit.tx);
        const before = await foundCell(store, cellId);
        if (before.version !== expectedVersion) throw stale('cell', before, expectedVersion);
        if (changes.code !== undefined && changes.code !== before.code)
          await refuseCodeTaken(store, changes.code);
        await store.changeCell(cellId, changes);
        unit.append({
          type: 'cell.changed',
          ...subject(cellId, before.version + 1),
          ...changedFields<Cell>(before, changes as Partial<Cell>),
        });
        return foundCell(store, cellId);
      });
    },

    async setCalendar(
      actor: Actor,
      cellId: string,
      { expectedVersion, reason, ...calendar }: BodyOf<typeof cells.setCalendar>,
    ): Promise<Cell> {
      const faults = calendarFaults(calendar);
      if (faults.length > 0) throw faultyCalendar(faults);
      return uow.write(actor, async (unit) => {
        const store = cellsWriter(unit.tx);
        const before = await foundCell(store, cellId);
        if (before.version !== expectedVersion) throw stale('cell', before, expectedVersion);
        await store.replaceCalendar(cellId, calendar, newId);
        const after = await foundCell(store, cellId);
        unit.append({
          type: 'cell.calendarSet',
          ...subject(cellId, after.version),
          ...changedFields(before.calendar, after.calendar),
          reason,
        });
        return after;
      });
    },
  };
}

/** When the cells in use work, for whoever plans or draws a run queue. */
function createHours({ database, clock, timeZone }: Foundation) {
  return async ({
    from,
    days,
  }: QueryOf<typeof cells.hours>): Promise<ReplyOf<typeof cells.hours>> => {
    const start = from === undefined ? clock.now() : new Date(from);
    const end = new Date(start.getTime() + days * msPerDay);
    const [firstDay, lastDay] = [shopDay(start, timeZone), shopDay(end, timeZone)];
    const all = await cellsReader(database.reader).cells();
    const hours = all
      .filter(({ active }) => active)
      .map(({ id, planningFactor, calendar }) => ({
        cellId: id,
        windows: workingWindows({ ...calendar, planningFactor, from: start, to: end, timeZone }),
        losses: calendar.dayChanges.filter(
          ({ day, kind }) => kind !== 'overtime' && day >= firstDay && day <= lastDay,
        ),
      }));
    return { from: start.toISOString(), to: end.toISOString(), cells: hours };
  };
}

type Store = ReturnType<typeof cellsReader>;

function subject(cellId: string, version: number) {
  return { subjectType: 'cell', subjectId: cellId, version, cellId } as const;
}

async function foundCell(store: Store, id: string, field?: string): Promise<Cell> {
  const cell = await store.cell(id);
  if (cell === null) throw notFound('cell', id, field);
  return cell;
}

async function refuseCodeTaken(store: Store, code: string): Promise<void> {
  if (!(await store.codeTaken(code))) return;
  throw refuseField(
    'DUPLICATE',
    `There is a cell ${code} already. Choose another code.`,
    'body.code',
    code,
    'a code that no other cell has',
  );
}

function faultyCalendar(faults: ReturnType<typeof calendarFaults>): Refusal {
  const lines = faults.slice(0, 5).map(({ field, allowed }) => `${field}: ${allowed}`);
  return new Refusal('INVALID', `${lines.join('; ')}. Correct it and save again.`, {
    fields: faults,
  });
}
