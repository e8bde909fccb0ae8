import { RunChange, SetUp } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

export interface ChangeRow {
  readonly id: string;
  readonly at: Date;
  readonly variable: string;
  readonly from: string | null;
  readonly to: string;
  readonly why: string;
  readonly result: string;
  readonly afterPart: number;
  readonly personCode: string;
}

export interface NewChange extends Omit<ChangeRow, 'personCode'> {
  readonly runId: string;
  readonly jobStepId: string;
  readonly personId: string;
}

/** What was said at the start and at the close of the runs of one step; the latest of each. */
export interface Closing {
  readonly programAtStart: string | null;
  readonly programAtClose: string | null;
  readonly watchOuts: readonly string[] | null;
  readonly closedOutAt: Date | null;
}

export function toChange(row: ChangeRow): RunChange {
  return RunChange.parse({ ...row, at: row.at.toISOString() });
}

/** What the runs of a step changed, said and left behind. */
export function memoryReader(db: Db) {
  return {
    /** Oldest first. */
    async changes(jobStepId: string): Promise<ChangeRow[]> {
      return db.$queryRaw<ChangeRow[]>`
        SELECT rc."id", rc."at", rc."variable", rc."fromValue" AS "from", rc."toValue" AS "to", rc."why",
          rc."result", rc."afterPart", p."code" AS "personCode"
        FROM "RunChange" rc JOIN "Person" p ON p."id" = rc."personId"
        WHERE rc."jobStepId" = ${jobStepId} ORDER BY rc."at", rc."id"`;
    },
    async closing(jobStepId: string): Promise<Closing> {
      const rows = await db.run.findMany({
        where: { jobStepId },
        select: { programAtStart: true, programAtClose: true, watchOuts: true, closedOutAt: true },
        orderBy: [{ startedAt: 'desc' }, { id: 'desc' }],
      });
      const latest = <K extends keyof (typeof rows)[number]>(key: K) =>
        rows.find((row) => row[key] !== null)?.[key] ?? null;
      return {
        programAtStart: latest('programAtStart'),
        programAtClose: latest('programAtClose'),
        watchOuts: latest('watchOuts') as readonly string[] | null,
        closedOutAt: latest('closedOutAt'),
      };
    },
    /** What was said at the close of this run itself. */
    async programAtCloseOf(runId: string): Promise<string | null> {
      const row = await db.run.findUnique({
        where: { id: runId },
        select: { programAtClose: true },
      });
      return row?.programAtClose ?? null;
    },
    /** The run that a set-up was frozen from, with its job. */
    async frozenFrom(runId: string) {
      return db.run.findUnique({
        where: { id: runId },
        select: {
          jobStepId: true,
          jobStep: { select: { job: { select: { number: true, quantity: true } } } },
        },
      });
    },
    async wpsLabelOf(runId: string): Promise<string | null> {
      const run = await db.run.findUnique({ where: { id: runId }, select: { wpsId: true } });
      if (run === null || run.wpsId === null) return null;
      const wps = await db.wps.findUnique({
        where: { id: run.wpsId },
        select: { number: true, revision: true },
      });
      return wps && `${wps.number} r${wps.revision}`;
    },
    benchAt: async (cellId: string) => benchAt(db, cellId),
    /** Other cells at which a set-up of this step is kept. */
    async keptElsewhere(stepId: string, cellId: string): Promise<string[]> {
      const rows = await db.setUp.findMany({
        where: { stepId, current: true, cellId: { not: cellId } },
        select: { cell: { select: { code: true } } },
      });
      return rows.map(({ cell }) => cell.code).toSorted();
    },
    /** Whether settings outside the procedure are signed for now, for the one who holds the step. */
    async settingsSigned(of: { jobStepId: string; jobId: string; personId: string; now: Date }) {
      const rows = await db.$queryRaw<{ id: string }[]>`
        SELECT "id" FROM "Override" WHERE "jobId" = ${of.jobId} AND "rule" = 'settings'
          AND ("jobStepId" IS NULL OR "jobStepId" = ${of.jobStepId})
          AND ("forPerson" IS NULL OR "forPerson" = ${of.personId}) AND "expiresAt" > ${of.now} LIMIT 1`;
      return rows.length > 0;
    },
  };
}

/** A cell as a set-up names it, with the wire and the gas that hang there now. */
async function benchAt(db: Db, cellId: string) {
  const cell = await db.cell.findUniqueOrThrow({
    where: { id: cellId },
    select: { code: true, mechanisation: true },
  });
  const loads = await db.lotLoad.findMany({
    where: { cellId, unloadedAt: null },
    select: { kind: true, lot: { select: { itemId: true } } },
    orderBy: { loadedAt: 'desc' },
  });
  const itemOf = (kinds: readonly string[]) =>
    loads.find(({ kind }) => kinds.includes(kind))?.lot.itemId ?? null;
  return {
    ...{ cellId, cellCode: cell.code },
    mechanisation: SetUp.shape.mechanisation.parse(cell.mechanisation),
    ...{ wireItemId: itemOf(['wire', 'electrode']), gasItemId: itemOf(['gas']) },
  };
}

export function memoryWriter(tx: TransactionClient) {
  return {
    ...memoryReader(tx),
    async addChange({ from, to, ...row }: NewChange): Promise<void> {
      await tx.runChange.create({ data: { ...row, fromValue: from, toValue: to } });
      await tx.run.update({ where: { id: row.runId }, data: { version: { increment: 1 } } });
    },
    async say(
      runId: string,
      said: {
        programAtStart?: string;
        programAtClose?: string;
        watchOuts?: readonly string[];
        closedOutAt?: Date;
      },
    ): Promise<void> {
      const { watchOuts, ...rest } = said;
      await tx.run.update({
        where: { id: runId },
        data: {
          ...rest,
          ...(watchOuts === undefined
            ? {}
            : { watchOuts: [...watchOuts] as Prisma.InputJsonArray }),
          version: { increment: 1 },
        },
      });
    },
  };
}
