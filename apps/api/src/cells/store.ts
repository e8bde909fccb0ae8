import { Cell } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

const withCalendar = {
  shifts: { orderBy: [{ weekday: 'asc' }, { startTime: 'asc' }] },
  dayChanges: { orderBy: [{ day: 'asc' }, { kind: 'asc' }] },
} as const satisfies Prisma.CellInclude;
type CellRow = Prisma.CellGetPayload<{ include: typeof withCalendar }>;

export type CellFields = Omit<Cell, 'id' | 'version' | 'active' | 'calendar'>;

/** A change may leave any field out. */
export type CellChanges = {
  readonly [Field in keyof CellFields | 'active']?: Cell[Field] | undefined;
};

function toCell({ createdAt: _createdAt, shifts, dayChanges, ...row }: CellRow): Cell {
  return {
    ...row,
    processes: Cell.shape.processes.parse(row.processes),
    mechanisation: Cell.shape.mechanisation.parse(row.mechanisation),
    travelUnit: Cell.shape.travelUnit.parse(row.travelUnit),
    calendar: Cell.shape.calendar.parse({ shifts, dayChanges }),
  };
}

export function cellsReader(db: Db) {
  return {
    async cells(): Promise<Cell[]> {
      const rows = await db.cell.findMany({ include: withCalendar, orderBy: { code: 'asc' } });
      return rows.map(toCell);
    },
    async cell(id: string): Promise<Cell | null> {
      const row = await db.cell.findUnique({ where: { id }, include: withCalendar });
      return row && toCell(row);
    },
    async codeTaken(code: string): Promise<boolean> {
      return (await db.cell.findUnique({ where: { code }, select: { id: true } })) !== null;
    },
  };
}

export function cellsWriter(tx: TransactionClient) {
  return {
    ...cellsReader(tx),
    async addCell(id: string, fields: CellFields, createdAt: Date): Promise<void> {
      await tx.cell.create({ data: { ...fields, id, createdAt } });
    },
    async changeCell(id: string, changes: CellChanges): Promise<void> {
      await tx.cell.update({
        where: { id },
        data: { ...(changes as Prisma.CellUpdateInput), version: { increment: 1 } },
      });
    },
    async replaceCalendar(
      cellId: string,
      { shifts, dayChanges }: Cell['calendar'],
      newId: () => string,
    ): Promise<void> {
      await tx.shift.deleteMany({ where: { cellId } });
      await tx.dayChange.deleteMany({ where: { cellId } });
      await tx.shift.createMany({
        data: shifts.map((shift) => ({ ...shift, id: newId(), cellId })),
      });
      await tx.dayChange.createMany({
        data: dayChanges.map((change) => ({ ...change, id: newId(), cellId })),
      });
      await tx.cell.update({ where: { id: cellId }, data: { version: { increment: 1 } } });
    },
  };
}
