import type { HistoryEntry, LiveEvent, SubjectType } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Db, TransactionClient } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import type { NewEvent } from './event.js';

const json = (value: unknown) =>
  value === undefined || value === null ? Prisma.DbNull : (value as Prisma.InputJsonValue);

/** Appends; there is no method that changes or deletes, and the database refuses both. */
export async function appendEvents(
  tx: TransactionClient,
  actor: Actor,
  at: Date,
  events: readonly NewEvent[],
): Promise<void> {
  await tx.event.createMany({
    data: events.map((event) => ({
      at,
      type: event.type,
      actorId: actor.person?.id ?? null,
      deviceId: actor.tablet?.id ?? null,
      requestId: actor.requestId,
      subjectType: event.subjectType,
      subjectId: event.subjectId,
      subjectVersion: event.version ?? null,
      cellId: event.cellId ?? null,
      before: json(event.before),
      after: json(event.after),
      reason: event.reason ?? null,
      meaning: event.meaning ?? null,
    })),
  });
}

export function eventReader(db: Db) {
  return {
    async lastSeq(): Promise<number> {
      const last = await db.event.findFirst({ orderBy: { seq: 'desc' }, select: { seq: true } });
      return last?.seq ?? 0;
    },
    /** The thin part of what came after `seq`, oldest first. */
    async after(seq: number, limit: number): Promise<LiveEvent[]> {
      const rows = await db.event.findMany({
        where: { seq: { gt: seq } },
        orderBy: { seq: 'asc' },
        take: limit,
        select: {
          seq: true,
          type: true,
          subjectType: true,
          subjectId: true,
          subjectVersion: true,
          cellId: true,
        },
      });
      return rows.map(({ subjectVersion, subjectType, ...row }) => ({
        ...row,
        subjectType: subjectType as SubjectType,
        version: subjectVersion,
      }));
    },
    async history(
      subjectType: SubjectType,
      subjectId: string,
      limit: number,
      before?: number,
    ): Promise<HistoryEntry[]> {
      const rows = await db.event.findMany({
        where: { subjectType, subjectId, ...(before === undefined ? {} : { seq: { lt: before } }) },
        orderBy: { seq: 'desc' },
        take: limit,
      });
      const people = await db.person.findMany({
        where: { id: { in: rows.flatMap((row) => row.actorId ?? []) } },
        select: { id: true, code: true, name: true },
      });
      const tablets = await db.tablet.findMany({
        where: { id: { in: rows.flatMap((row) => row.deviceId ?? []) } },
        select: { id: true, name: true },
      });
      const byId = new Map(people.map((person) => [person.id, person]));
      const tabletById = new Map(tablets.map((tablet) => [tablet.id, tablet.name]));
      return rows.map((row) => ({
        seq: row.seq,
        at: row.at.toISOString(),
        type: row.type,
        actorCode: byId.get(row.actorId ?? '')?.code ?? null,
        actorName: byId.get(row.actorId ?? '')?.name ?? null,
        deviceName: tabletById.get(row.deviceId ?? '') ?? null,
        before: row.before,
        after: row.after,
        reason: row.reason,
        meaning: row.meaning,
      }));
    },
  };
}
