import type { Db } from '../db/client.js';
import type { StepTimes } from './planned-time-of.js';
import { planReader } from './plan-store.js';

type CellKind = StepTimes['cellKind'];

export function otherWayReader(db: Db) {
  return {
    /** The newest step of a part that is made at cells of the other kind, in whatever revision; null where none is. */
    async step(partId: string, cellKind: CellKind): Promise<(StepTimes & { id: string }) | null> {
      const row = await db.step.findFirst({
        where: { cellKind, revision: { partId } },
        orderBy: { revision: { createdAt: 'desc' } },
        select: { id: true },
      });
      const times = row && (await planReader(db).stepTimes([row.id])).get(row.id);
      return row && times ? { ...times, id: row.id } : null;
    },
  };
}
