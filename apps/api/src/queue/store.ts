import type { jobStepStates, Lane, QueuedStep } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import { daysBefore } from '../clock.js';
import type { Handling } from './cell-limits.js';
import { rankGap } from './rank.js';

type State = (typeof jobStepStates)[number];

/** A queued step as it stands; whether it is late depends on the day and is the service's to say. */
export type StepRecord = Omit<QueuedStep, 'late'>;

export interface LaneRecord extends Omit<Lane, 'queuedMin' | 'steps'> {
  readonly steps: readonly StepRecord[];
}

type Nullable<T> = { [K in keyof T]: T[K] | null };
interface CellColumns {
  readonly cellId: string;
  readonly cellCode: string;
  readonly cellName: string;
  readonly cellKind: Lane['cellKind'];
  readonly cellActive: boolean;
}
interface HolderColumns {
  readonly runId: string;
  readonly personId: string;
  readonly personCode: string;
  readonly personName: string;
  readonly since: Date;
}
export type StepColumns = Omit<StepRecord, 'holder' | 'weldBy'> &
  Nullable<HolderColumns> & { readonly outsideDays: number };

/** The columns of a queued step and the tables they come from; shared by the board and by the set-up card. */
export const stepColumns = Prisma.sql`
  js."id", js."version", js."jobId", j."number" AS "jobNumber", js."number" AS "stepNumber",
  s."name" AS "stepName", p."number" AS "partNumber", p."name" AS "partName", r."label" AS "revision",
  cu."name" AS "customerName", j."quantity", js."goodCount", js."scrapCount", js."quarantinedCount", j."dueOn", js."state",
  js."plannedMin", s."setUpMin", js."kitComplete", j."released", p."coded", p."outsideDays", s."wpsNumber",
  h."runId", h."personId", pe."code" AS "personCode", pe."name" AS "personName", h."since"`;
// All of them are there; LEFT keeps the queued steps in the lead, so that years of done ones cost nothing.
export const stepTables = Prisma.sql`
  LEFT JOIN "Job" j ON j."id" = js."jobId"
  LEFT JOIN "Order" o ON o."id" = j."orderId"
  LEFT JOIN "Customer" cu ON cu."id" = o."customerId"
  LEFT JOIN "Step" s ON s."id" = js."stepId"
  LEFT JOIN "Revision" r ON r."id" = j."revisionId"
  LEFT JOIN "Part" p ON p."id" = r."partId"
  LEFT JOIN "Holding" h ON h."jobStepId" = js."id"
  LEFT JOIN "Person" pe ON pe."id" = h."personId"`;

export function toStepRecord(row: StepColumns): StepRecord {
  const { runId, personId, personCode, personName, since, outsideDays, ...step } = row;
  const held = runId !== null && personId !== null && since !== null;
  return {
    ...step,
    weldBy: outsideDays === 0 ? step.dueOn : daysBefore(step.dueOn, outsideDays),
    holder: held
      ? {
          runId,
          personId,
          personCode: personCode ?? '',
          personName: personName ?? '',
          since: since.toISOString(),
        }
      : null,
  };
}

type LaneRow = CellColumns & Nullable<StepColumns>;

function toLanes(rows: readonly LaneRow[]): LaneRecord[] {
  const lanes = new Map<string, LaneRecord & { steps: StepRecord[] }>();
  for (const { cellId, cellCode, cellName, cellKind, cellActive, ...step } of rows) {
    if (!cellActive && step.id === null) continue;
    let lane = lanes.get(cellId);
    if (!lane) lanes.set(cellId, (lane = { cellId, cellCode, cellName, cellKind, steps: [] }));
    if (step.id !== null) lane.steps.push(toStepRecord(step as StepColumns));
  }
  return [...lanes.values()];
}

export interface PlaceRecord extends Handling {
  readonly id: string;
  readonly version: number;
  readonly state: State;
  readonly cellId: string;
  readonly rank: number;
  readonly stepName: string;
  readonly stepKind: Lane['cellKind'];
  readonly jobNumber: number;
}

export function reader(db: Db) {
  return {
    async lastSeq(): Promise<number> {
      const rows = await db.$queryRaw<{ seq: number }[]>`
        SELECT "seq" FROM "Event" ORDER BY "seq" DESC LIMIT 1`;
      return rows[0]?.seq ?? 0;
    },
    /** Every run queue, the held step first, then by rank; with `cellId` only that one. */
    async lanes(cellId: string | null = null): Promise<LaneRecord[]> {
      const only = cellId === null ? Prisma.empty : Prisma.sql`WHERE c."id" = ${cellId}`;
      const rows = await db.$queryRaw<LaneRow[]>`
        SELECT c."id" AS "cellId", c."code" AS "cellCode", c."name" AS "cellName", c."kind" AS "cellKind",
          c."active" AS "cellActive", ${stepColumns}
        FROM "Cell" c
        LEFT JOIN "JobStep" js ON js."cellId" = c."id" AND js."state" IN ('blocked', 'waiting', 'held')
        ${stepTables}
        ${only}
        ORDER BY c."code", CASE js."state" WHEN 'held' THEN 0 ELSE 1 END, js."rank", js."id"`;
      return toLanes(rows);
    },
    async step(jobStepId: string): Promise<StepRecord | null> {
      const rows = await db.$queryRaw<StepColumns[]>`
        SELECT ${stepColumns} FROM "JobStep" js ${stepTables} WHERE js."id" = ${jobStepId}`;
      return rows[0] ? toStepRecord(rows[0]) : null;
    },
    async place(jobStepId: string): Promise<PlaceRecord | null> {
      const row = await db.jobStep.findUnique({
        where: { id: jobStepId },
        include: {
          step: { select: { name: true, cellKind: true, massKg: true, reachMm: true } },
          job: { select: { number: true } },
        },
      });
      if (row === null) return null;
      const { id, version, state, cellId, rank, step, job } = row;
      const { name, cellKind, ...handling } = step;
      const named = { stepName: name, stepKind: cellKind, jobNumber: job.number };
      return { id, version, state, cellId, rank, ...named, ...handling };
    },
    async cells() {
      return db.cell.findMany({
        select: {
          ...{ id: true, code: true, kind: true, active: true },
          ...{ loadKg: true, reachMm: true },
        },
        orderBy: { code: 'asc' },
      });
    },
  };
}

const open = { in: ['blocked', 'waiting', 'held'] } satisfies Prisma.EnumJobStepStateFilter;

export interface NewJobStep {
  readonly id: string;
  readonly jobId: string;
  readonly stepId: string;
  readonly number: number;
  readonly cellId: string;
  readonly plannedMin: number;
  readonly state: 'waiting' | 'blocked';
  readonly rank: number;
}

export function writer(tx: TransactionClient) {
  return {
    ...reader(tx),
    /** The highest rank of each of these run queues; a queue without steps is not in the answer. */
    async lastRanks(cellIds: readonly string[]): Promise<Map<string, number>> {
      const rows = await tx.jobStep.groupBy({
        by: ['cellId'],
        where: { cellId: { in: [...cellIds] }, state: open },
        _max: { rank: true },
      });
      return new Map(rows.map(({ cellId, _max }) => [cellId, _max.rank ?? 0]));
    },
    async addSteps(rows: readonly NewJobStep[]): Promise<void> {
      await tx.jobStep.createMany({ data: [...rows] });
    },
    /** Ranks of the open steps of a queue in order, without the one that moves. */
    async ranks(cellId: string, butId: string) {
      return tx.jobStep.findMany({
        where: { cellId, state: open, id: { not: butId } },
        select: { id: true, rank: true },
        orderBy: [{ rank: 'asc' }, { id: 'asc' }],
      });
    },
    /** Numbers a queue again in its present order. */
    async renumber(ids: readonly string[]): Promise<void> {
      for (const [index, id] of ids.entries()) {
        await tx.jobStep.update({ where: { id }, data: { rank: (index + 1) * rankGap } });
      }
    },
    /** False when the row has moved on. */
    async setPlace(
      at: { id: string; version: number },
      place: { cellId: string; rank: number },
    ): Promise<boolean> {
      const { count } = await tx.jobStep.updateMany({
        where: { ...at, state: { in: ['blocked', 'waiting'] } },
        data: { ...place, version: { increment: 1 } },
      });
      return count === 1;
    },
  };
}
