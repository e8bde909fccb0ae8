import { Cell } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { EquippedCell } from './could-do.js';
import type { RatedCell } from './current-at-duty.js';
import { groupBy } from '../group-by.js';
import type { CandidateCell } from './planning.js';
import type { LoadedItem } from './ready-notes.js';

/** A cell with the minutes that wait in its run queue. */
export type PlanCell = CandidateCell & RatedCell & EquippedCell;

/** The cells that an order line could go to, with what waits, what is loaded and when they work. */
export function cellPlanReader(db: Db) {
  return {
    async cells(): Promise<PlanCell[]> {
      const cells = await db.cell.findMany({
        where: { active: true },
        select: {
          ...{ id: true, code: true, kind: true, stations: true, mechanisation: true },
          ...{ processes: true, loadKg: true, reachMm: true },
          ...{ sourceRatingA: true, sourceRatingPct: true },
          ...{ torchRatingA: true, torchRatingPct: true, torchMaxA: true },
        },
        orderBy: { code: 'asc' },
      });
      const sums = await db.jobStep.groupBy({
        by: ['cellId'],
        where: { state: { in: ['blocked', 'waiting', 'held'] } },
        _sum: { plannedMin: true },
      });
      const queued = new Map(sums.map(({ cellId, _sum }) => [cellId, _sum.plannedMin ?? 0]));
      return cells.map((cell) => ({
        ...cell,
        processes: Cell.shape.processes.parse(cell.processes),
        mechanisation: Cell.shape.mechanisation.parse(cell.mechanisation),
        queuedMin: queued.get(cell.id) ?? 0,
      }));
    },
    /** Also of cells that are out of use. */
    async stations(ids: readonly string[]): Promise<Map<string, number>> {
      const rows = await db.cell.findMany({
        where: { id: { in: [...ids] } },
        select: { id: true, stations: true },
      });
      return new Map(rows.map(({ id, stations }) => [id, stations]));
    },
    async loads(cellIds: readonly string[]): Promise<Map<string, LoadedItem[]>> {
      const rows = await db.lotLoad.findMany({
        where: { cellId: { in: [...cellIds] }, unloadedAt: null },
        select: {
          cellId: true,
          kind: true,
          leftAmount: true,
          lot: { select: { item: { select: { id: true, name: true, unit: true } } } },
        },
      });
      const byCell = groupBy(rows, ({ cellId }) => cellId);
      return new Map([...byCell].map(([cellId, loads]) => [cellId, loads.map(toLoadedItem)]));
    },
  };
}

function toLoadedItem(row: {
  kind: string;
  leftAmount: number;
  lot: { item: { id: string; name: string; unit: string } };
}): LoadedItem {
  const { kind, leftAmount, lot } = row;
  return { kind, leftAmount, itemId: lot.item.id, itemName: lot.item.name, unit: lot.item.unit };
}
