import { Revision, type Weld } from '@tackboard/contract';
import type { Db } from '../db/client.js';

const queued = ['blocked', 'waiting', 'held'] as const;
const Welds = Revision.shape.welds;

/** Reads for the questions that run across procedures, people, parts and queues; this area stores nothing. */
export function qualificationReader(db: Db) {
  return {
    ...shopReader(db),
    ...weldReader(db),
    async cell(id: string): Promise<{ code: string; mechanisation: string } | null> {
      return db.cell.findUnique({ where: { id }, select: { code: true, mechanisation: true } });
    },
    async stepsNaming(wpsNumber: string) {
      return db.step.findMany({
        where: { wpsNumber, revision: { state: { not: 'superseded' } } },
        select: {
          number: true,
          name: true,
          revision: {
            select: { id: true, label: true, part: { select: { id: true, number: true } } },
          },
        },
        orderBy: [{ revision: { part: { number: 'asc' } } }, { number: 'asc' }],
      });
    },
    /** Steps in the queues or in work; of one procedure number, or all. */
    async queuedSteps(wpsNumber?: string) {
      return db.jobStep.findMany({
        where: {
          state: { in: [...queued] },
          ...(wpsNumber === undefined ? {} : { step: { wpsNumber } }),
        },
        select: {
          id: true,
          version: true,
          state: true,
          wpsId: true,
          cell: { select: { id: true, code: true, kind: true } },
          step: { select: { number: true, wpsNumber: true } },
          job: {
            select: {
              id: true,
              number: true,
              dueOn: true,
              revisionId: true,
              revision: { select: { part: { select: { number: true, coded: true } } } },
            },
          },
        },
        orderBy: [{ job: { number: 'asc' } }, { number: 'asc' }],
      });
    },
    async doneSteps(wpsNumber: string): Promise<number> {
      return db.jobStep.count({ where: { state: 'done', step: { wpsNumber } } });
    },
    async revisionsOfWps(ids: readonly string[]): Promise<Map<string, number>> {
      const rows = await db.wps.findMany({
        where: { id: { in: [...new Set(ids)] } },
        select: { id: true, revision: true },
      });
      return new Map(rows.map(({ id, revision }) => [id, revision]));
    },
  };
}

/** Who and what there is in the shop. */
function shopReader(db: Db) {
  return {
    async cells() {
      return db.cell.findMany({
        where: { active: true },
        select: { id: true, code: true, kind: true },
        orderBy: { code: 'asc' },
      });
    },
    async instruments() {
      return db.instrument.findMany({
        where: { active: true },
        select: { id: true, code: true, kind: true, dueOn: true },
      });
    },
    async overridesSince(from: Date) {
      return db.override.findMany({
        where: { signedAt: { gte: from } },
        orderBy: { signedAt: 'desc' },
        include: { job: { select: { number: true } } },
      });
    },
    async personCodes(): Promise<Map<string, string>> {
      const rows = await db.person.findMany({ select: { id: true, code: true } });
      return new Map(rows.map(({ id, code }) => [id, code]));
    },
  };
}

function weldReader(db: Db) {
  return {
    async weldsOf(revisionIds: readonly string[]): Promise<Map<string, Weld[]>> {
      const rows = await db.weld.findMany({
        where: { revisionId: { in: [...new Set(revisionIds)] } },
        orderBy: { number: 'asc' },
      });
      const welds = Welds.parse(rows);
      const byRevision = new Map<string, Weld[]>();
      rows.forEach(({ revisionId }, at) => {
        const weld = welds[at];
        if (weld === undefined) return;
        byRevision.set(revisionId, [...(byRevision.get(revisionId) ?? []), weld]);
      });
      return byRevision;
    },
    async revisionSteps(revisionId: string) {
      return db.step.findMany({
        where: { revisionId },
        select: { number: true, cellKind: true, wpsNumber: true },
      });
    },
    async hasRevision(id: string): Promise<boolean> {
      return (await db.revision.findUnique({ where: { id }, select: { id: true } })) !== null;
    },
    /** Every weld that the shop may be asked for again. */
    async weldsOnFile() {
      return db.weld.findMany({
        where: { revision: { state: 'released', part: { active: true } } },
        select: {
          number: true,
          process: true,
          position: true,
          thicknessAMm: true,
          thicknessBMm: true,
          revision: { select: { label: true, part: { select: { number: true } } } },
        },
      });
    },
    /** The same with all that the drawing says, and those of work in the queues under older revisions. */
    async weldsToHold(queuedRevisionIds: readonly string[]) {
      const rows = await db.weld.findMany({
        where: {
          OR: [
            { revision: { state: 'released', part: { active: true } } },
            { revisionId: { in: [...new Set(queuedRevisionIds)] } },
          ],
        },
        include: {
          revision: {
            select: {
              label: true,
              part: { select: { id: true, number: true } },
              steps: { select: { number: true, cellKind: true } },
            },
          },
        },
        orderBy: [
          { revision: { part: { number: 'asc' } } },
          { revisionId: 'asc' },
          { number: 'asc' },
        ],
      });
      const welds = Welds.parse(rows);
      return rows.flatMap(({ revisionId, revision }, at) => {
        const weld = welds[at];
        if (weld === undefined) return [];
        const step = revision.steps.find(({ number }) => number === weld.stepNumber);
        return [
          {
            ...{ weld, revisionId, label: revision.label, part: revision.part },
            cellKind: step?.cellKind ?? 'booth',
          },
        ];
      });
    },
  };
}

export type WeldToHold = Awaited<ReturnType<ReturnType<typeof weldReader>['weldsToHold']>>[number];
export type QueuedStep = Awaited<
  ReturnType<ReturnType<typeof qualificationReader>['queuedSteps']>
>[number];
