import { Revision, type Step, type Weld } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';
import { personNames, toSetUp, withNamesOfSetUp } from './set-up-store.js';

export type WeldFields = Omit<Weld, 'id'>;
export type StepFields = Omit<Step, 'id' | 'version' | 'setUps'>;

const withLists = {
  part: { select: { number: true, name: true } },
  welds: { orderBy: { number: 'asc' } },
  steps: {
    orderBy: { number: 'asc' },
    include: {
      setUps: {
        where: { current: true },
        orderBy: { cell: { code: 'asc' } },
        include: withNamesOfSetUp,
      },
    },
  },
} as const satisfies Prisma.RevisionInclude;
type RevisionRow = Prisma.RevisionGetPayload<{ include: typeof withLists }>;

const Welds = Revision.shape.welds;

async function toRevision(db: Db, row: RevisionRow): Promise<Revision> {
  const { part, welds, steps, ...revision } = row;
  const frozenBy = steps.flatMap(({ setUps }) => setUps.map((setUp) => setUp.frozenBy));
  const names = await personNames(db, [row.releasedBy, ...frozenBy]);
  return {
    ...revision,
    partNumber: part.number,
    partName: part.name,
    releasedAt: row.releasedAt?.toISOString() ?? null,
    releasedBy: row.releasedBy && (names.get(row.releasedBy) ?? row.releasedBy),
    welds: Welds.parse(welds),
    steps: steps.map(({ setUps, ...step }) => ({
      ...step,
      setUps: setUps.map((setUp) => toSetUp(setUp, names)),
    })),
  };
}

export function revisionReader(db: Db) {
  return {
    async revision(id: string): Promise<Revision | null> {
      const row = await db.revision.findUnique({ where: { id }, include: withLists });
      return row && toRevision(db, row);
    },
    async released(partId: string): Promise<Revision | null> {
      const row = await db.revision.findFirst({
        where: { partId, state: 'released' },
        include: withLists,
      });
      return row && toRevision(db, row);
    },
    async labels(partId: string): Promise<string[]> {
      const rows = await db.revision.findMany({ where: { partId }, select: { label: true } });
      return rows.map(({ label }) => label);
    },
  };
}

/** Current set-ups go along with their steps; `to` gives the new step of each old one. Answers their new ids. */
async function copySetUps(
  tx: TransactionClient,
  to: ReadonlyMap<string, string>,
  newId: () => string,
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.setUp.findMany({
    where: { stepId: { in: [...to.keys()] }, current: true },
  });
  const ids = new Map(rows.map(({ id }) => [id, newId()]));
  await tx.setUp.createMany({
    data: rows.map(({ watchOuts, ...row }) => ({
      ...row,
      watchOuts: watchOuts as Prisma.InputJsonValue,
      id: ids.get(row.id) ?? newId(),
      version: 1,
      stepId: to.get(row.stepId) ?? row.stepId,
    })),
  });
  return ids;
}

export function revisionWriter(tx: TransactionClient) {
  return {
    ...revisionReader(tx),
    async addRevision(
      row: Pick<
        Revision,
        'id' | 'partId' | 'label' | 'drawingNumber' | 'drawingPrint' | 'changeNote'
      >,
      createdAt: Date,
    ): Promise<void> {
      await tx.revision.create({ data: { ...row, createdAt } });
    },
    async changed(id: string): Promise<void> {
      await tx.revision.update({ where: { id }, data: { version: { increment: 1 } } });
    },
    async setWelds(
      revisionId: string,
      welds: readonly WeldFields[],
      newId: () => string,
    ): Promise<void> {
      await tx.weld.deleteMany({ where: { revisionId } });
      await tx.weld.createMany({
        data: welds.map((weld) => ({
          ...weld,
          preparation: weld.preparation ?? Prisma.DbNull,
          id: newId(),
          revisionId,
        })),
      });
    },
    async addSteps(revisionId: string, steps: readonly (StepFields & { id: string })[]) {
      await tx.step.createMany({ data: steps.map((step) => ({ ...step, revisionId })) });
    },
    async changeStep(id: string, fields: StepFields): Promise<void> {
      await tx.step.update({ where: { id }, data: { ...fields, version: { increment: 1 } } });
    },
    async removeSteps(ids: readonly string[]): Promise<void> {
      await tx.setUp.deleteMany({ where: { stepId: { in: [...ids] } } });
      await tx.step.deleteMany({ where: { id: { in: [...ids] } } });
    },
    copySetUps: async (to: ReadonlyMap<string, string>, newId: () => string) =>
      copySetUps(tx, to, newId),
    async release(
      id: string,
      by: { releasedBy: string; releasedAt: Date; changeNote: string },
    ): Promise<void> {
      await tx.revision.update({
        where: { id },
        data: { ...by, state: 'released', version: { increment: 1 } },
      });
    },
    /** Takes every released revision of the part out of use; answers which. */
    async supersede(partId: string): Promise<{ id: string; version: number; label: string }[]> {
      const rows = await tx.revision.findMany({
        where: { partId, state: 'released' },
        select: { id: true, version: true, label: true },
      });
      await tx.revision.updateMany({
        where: { id: { in: rows.map(({ id }) => id) } },
        data: { state: 'superseded', version: { increment: 1 } },
      });
      return rows;
    },
  };
}
