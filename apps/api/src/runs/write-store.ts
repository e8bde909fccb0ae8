import type { ReadingInput, Run, StartSaid } from '@tackboard/contract';
import { asWeighed } from '../consumables/amounts.js';
import type { TransactionClient } from '../db/client.js';
import { runsReader } from './store.js';

export interface NewRun {
  readonly id: string;
  readonly jobStepId: string;
  readonly cellId: string;
  readonly personId: string;
  readonly wpsId: string | null;
  readonly setUpId: string | null;
  readonly startedAt: Date;
  readonly arcSPerPart: number;
}

export interface CountedParts {
  readonly good: number;
  readonly rework: number;
  readonly scrap: number;
}

type StartSaidNow = Omit<StartSaid, 'at'> & { readonly at: Date };

function startColumns(said: StartSaid | StartSaidNow | null) {
  if (said === null) return {};
  const { at, personCode, differences } = said;
  return { startSaidAt: at, startSaidBy: personCode, startDifferences: differences };
}

function holdingWriter(tx: TransactionClient) {
  return {
    /**
     * Takes a waiting step as it was judged: false when it moved on meanwhile, or when the cell holds a step.
     * As few statements as there are rows to write: a pull is waited for.
     */
    async take(run: NewRun, step: { version: number; jobId: string }): Promise<boolean> {
      const { id, jobStepId, cellId, personId, wpsId, setUpId, startedAt, arcSPerPart } = run;
      const taken = await tx.$executeRaw`
        UPDATE "JobStep" SET "state" = 'held', "version" = "version" + 1, "wpsId" = ${wpsId}
        WHERE "id" = ${jobStepId} AND "version" = ${step.version} AND "state" = 'waiting'
          AND NOT EXISTS (SELECT 1 FROM "Holding" WHERE "cellId" = ${cellId})`;
      if (taken !== 1) return false;
      await tx.$executeRaw`
        INSERT INTO "Run" ("id", "jobStepId", "cellId", "personId", "wpsId", "setUpId", "startedAt", "arcSPerPart",
          "startAsked")
        VALUES (${id}, ${jobStepId}, ${cellId}, ${personId}, ${wpsId}, ${setUpId}, ${startedAt}, ${arcSPerPart},
          true)`;
      await tx.$executeRaw`
        INSERT INTO "Holding" ("jobStepId", "cellId", "personId", "runId", "since")
        VALUES (${jobStepId}, ${cellId}, ${personId}, ${id}, ${startedAt})`;
      await tx.$executeRaw`
        UPDATE "Job" SET "state" = 'running', "version" = "version" + 1
        WHERE "id" = ${step.jobId} AND "state" = 'waiting'`;
      return true;
    },
    /**
     * Gives the held step to another person in a run of their own. The cell stands as it stood: what was confirmed
     * at the start holds for them as well.
     */
    async passOn(run: NewRun, { startAsked, start }: Pick<Run, 'startAsked' | 'start'>) {
      await tx.run.create({ data: { ...run, startAsked, ...startColumns(start) } });
      await tx.holding.update({
        where: { jobStepId: run.jobStepId },
        data: { personId: run.personId, runId: run.id, since: run.startedAt },
      });
    },
  };
}

function countWriter(tx: TransactionClient) {
  return {
    async addCount(
      row: CountedParts & {
        id: string;
        runId: string;
        at: Date;
        happenedAt: Date;
        personId: string;
      },
      also: { jobStepId: string; arcS: number },
    ): Promise<void> {
      const { good, rework, scrap } = row;
      await tx.runCount.create({ data: row });
      await tx.run.update({
        where: { id: row.runId },
        data: {
          goodCount: { increment: good },
          reworkCount: { increment: rework },
          scrapCount: { increment: scrap },
          arcS: { increment: also.arcS },
          version: { increment: 1 },
        },
      });
      await tx.jobStep.update({
        where: { id: also.jobStepId },
        data: {
          goodCount: { increment: good },
          scrapCount: { increment: scrap },
          version: { increment: 1 },
        },
      });
    },
    /** What the set-up of a step at a cell feeds; null where nothing is kept. */
    async wireSettings(stepId: string, cellId: string) {
      const setUp = await tx.setUp.findFirst({
        where: { stepId, cellId, current: true },
        select: { wireSpeedMMin: true, wireItem: { select: { wireDiameterMm: true } } },
      });
      if (setUp === null) return null;
      const { wireSpeedMMin, wireItem } = setUp;
      return { wireSpeedMMin, wireDiameterMm: wireItem?.wireDiameterMm ?? null };
    },
    /** Takes wire off what is recorded on the feeder; never below nothing. */
    async useWire(cellId: string, usedKg: number): Promise<void> {
      const load = await tx.lotLoad.findFirst({
        where: { cellId, kind: 'wire', unloadedAt: null, lot: { item: { unit: 'kg' } } },
        select: { id: true, leftAmount: true },
        orderBy: { loadedAt: 'desc' },
      });
      if (load === null) return;
      const leftAmount = Math.max(0, asWeighed(load.leftAmount - usedKg));
      await tx.lotLoad.update({ where: { id: load.id }, data: { leftAmount } });
    },
  };
}

function runWriter(tx: TransactionClient) {
  return {
    async openStop(row: {
      id: string;
      runId: string;
      cause: Run['stops'][number]['cause'];
      note: string;
      startedAt: Date;
    }): Promise<void> {
      await tx.stop.create({ data: row });
      await tx.run.update({ where: { id: row.runId }, data: { version: { increment: 1 } } });
    },
    async endStop(stop: { id: string; runId: string }, endedAt: Date): Promise<void> {
      await tx.stop.update({
        where: { id: stop.id },
        data: { endedAt, version: { increment: 1 } },
      });
      await tx.run.update({ where: { id: stop.runId }, data: { version: { increment: 1 } } });
    },
    async addReading(
      row: Omit<ReadingInput, 'happenedAt'> & {
        id: string;
        runId: string;
        at: Date;
        happenedAt: Date;
        result: string;
        personId: string;
      },
    ): Promise<void> {
      await tx.reading.create({ data: row });
      await tx.run.update({ where: { id: row.runId }, data: { version: { increment: 1 } } });
    },
    async sayStart(
      id: string,
      { programAtStart, ...said }: StartSaidNow & { programAtStart: string | null },
    ): Promise<void> {
      const data = { ...startColumns(said), startAsked: true, version: { increment: 1 } };
      const read = programAtStart === null ? {} : { programAtStart };
      await tx.run.update({ where: { id }, data: { ...data, ...read } });
    },
    async setNote(id: string, handOverNote: string): Promise<void> {
      await tx.run.update({ where: { id }, data: { handOverNote, version: { increment: 1 } } });
    },
    async endRun(
      id: string,
      fields: {
        endedAt: Date;
        setUpMin?: number;
        arcS?: number;
        arcSource?: Run['arcSource'];
        handOverNote?: string;
      },
    ): Promise<void> {
      await tx.run.update({ where: { id }, data: { ...fields, version: { increment: 1 } } });
    },
  };
}

function jobWriter(tx: TransactionClient) {
  return {
    async letGo(jobStepId: string, to: { state: 'waiting' | 'done'; doneAt: Date | null }) {
      await tx.holding.delete({ where: { jobStepId } });
      await tx.jobStep.update({
        where: { id: jobStepId },
        data: { ...to, version: { increment: 1 } },
      });
    },
    /** Steps of a job that are not done yet, in order. */
    async openSteps(jobId: string) {
      return tx.jobStep.findMany({
        where: { jobId, state: { in: ['blocked', 'waiting', 'held'] } },
        select: { id: true, number: true, state: true, cellId: true, version: true },
        orderBy: { number: 'asc' },
      });
    },
    async unblock(jobStepId: string): Promise<void> {
      await tx.jobStep.update({
        where: { id: jobStepId },
        data: { state: 'waiting', version: { increment: 1 } },
      });
    },
  };
}

export function runsWriter(tx: TransactionClient) {
  return {
    ...runsReader(tx),
    ...holdingWriter(tx),
    ...countWriter(tx),
    ...runWriter(tx),
    ...jobWriter(tx),
  };
}
