import type { WpsInUse } from '@tackboard/contract';
import type { Db } from '../db/client.js';

/** A strip shows so many points at most. */
const mostSetUps = 20;
const mostRuns = 10;
const mostReadings = 40;

const dialled = { currentA: true, voltageV: true, wireSpeedMMin: true, travelMmMin: true } as const;

export function inUseReader(db: Db) {
  return {
    /** Set-ups kept now, of released revisions whose step names the procedure. */
    async setUps(number: string): Promise<WpsInUse['setUps']> {
      const rows = await db.setUp.findMany({
        where: { current: true, step: { wpsNumber: number, revision: { state: 'released' } } },
        orderBy: { frozenAt: 'desc' },
        take: mostSetUps,
        select: {
          ...dialled,
          id: true,
          preheatC: true,
          cell: { select: { code: true } },
          wireItem: { select: { wireDiameterMm: true } },
          step: {
            select: {
              number: true,
              revision: { select: { part: { select: { number: true } } } },
            },
          },
        },
      });
      return rows.map(({ cell, wireItem, step, ...setUp }) => ({
        ...setUp,
        cellCode: cell.code,
        partNumber: step.revision.part.number,
        stepNumber: step.number,
        wireDiameterMm: wireItem?.wireDiameterMm ?? null,
      }));
    },
    async readings(wpsId: string): Promise<WpsInUse['readings']> {
      const runs = await db.run.findMany({
        where: { wpsId, readings: { some: {} } },
        orderBy: { startedAt: 'desc' },
        take: mostRuns,
        select: { id: true },
      });
      const rows = await db.reading.findMany({
        where: { runId: { in: runs.map(({ id }) => id) } },
        orderBy: { at: 'desc' },
        take: mostReadings,
        select: { ...dialled, at: true, preheatC: true, interpassC: true },
      });
      return rows.map(({ at, ...reading }) => ({ ...reading, at: at.toISOString() }));
    },
  };
}
