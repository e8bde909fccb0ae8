import { SetUp } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

export const withNamesOfSetUp = {
  cell: { select: { code: true } },
  wireItem: { select: { name: true, designation: true, wireDiameterMm: true } },
  gasItem: { select: { name: true, designation: true } },
  program: { select: { name: true } },
  fixture: { select: { code: true, place: true, condition: true } },
} as const satisfies Prisma.SetUpInclude;
type SetUpRow = Prisma.SetUpGetPayload<{ include: typeof withNamesOfSetUp }>;

/** The values of a set-up as they are kept; names come from what they point at. */
export type SetUpFields = Pick<
  SetUp,
  | 'cellId'
  | 'wireItemId'
  | 'gasItemId'
  | 'torch'
  | 'mechanisation'
  | 'currentA'
  | 'voltageV'
  | 'wireSpeedMMin'
  | 'travelMmMin'
  | 'gasFlowLMin'
  | 'contactTipMm'
  | 'preheatC'
  | 'programId'
  | 'programRevision'
  | 'fixtureId'
  | 'watchOuts'
>;

export function fieldsOf(setUp: SetUpFields): SetUpFields {
  const { cellId, wireItemId, gasItemId, torch, mechanisation, currentA, voltageV } = setUp;
  const { wireSpeedMMin, travelMmMin, gasFlowLMin, contactTipMm, preheatC } = setUp;
  const { programId, programRevision, fixtureId, watchOuts } = setUp;
  return {
    ...{ cellId, wireItemId, gasItemId, torch, mechanisation, currentA, voltageV },
    ...{ wireSpeedMMin, travelMmMin, gasFlowLMin, contactTipMm, preheatC },
    ...{ programId, programRevision, fixtureId, watchOuts },
  };
}

export function toSetUp(row: SetUpRow, names: ReadonlyMap<string, string>): SetUp {
  const { cell, wireItem, gasItem, program, fixture, ...setUp } = row;
  return {
    ...setUp,
    mechanisation: SetUp.shape.mechanisation.parse(row.mechanisation),
    watchOuts: SetUp.shape.watchOuts.parse(row.watchOuts),
    cellCode: cell.code,
    wireName: wireItem?.name ?? null,
    wireDesignation: wireItem?.designation ?? null,
    wireDiameterMm: wireItem?.wireDiameterMm ?? null,
    gasName: gasItem?.name ?? null,
    gasDesignation: gasItem?.designation ?? null,
    programName: program?.name ?? null,
    fixtureCode: fixture?.code ?? null,
    fixturePlace: fixture?.place ?? null,
    fixtureCondition: fixture?.condition ?? null,
    frozenAt: row.frozenAt.toISOString(),
    frozenBy: names.get(row.frozenBy) ?? row.frozenBy,
  };
}

export async function personNames(
  db: Db,
  ids: readonly (string | null)[],
): Promise<Map<string, string>> {
  const known = [...new Set(ids)].filter((id) => id !== null);
  const rows = await db.person.findMany({
    where: { id: { in: known } },
    select: { id: true, name: true },
  });
  return new Map(rows.map(({ id, name }) => [id, name]));
}

export function setUpReader(db: Db) {
  return {
    async step(id: string) {
      return db.step.findUnique({
        where: { id },
        select: { id: true, number: true, name: true, cellKind: true },
      });
    },
    async cell(id: string) {
      return db.cell.findUnique({ where: { id }, select: { code: true, kind: true } });
    },
    async item(id: string) {
      return db.item.findUnique({ where: { id }, select: { name: true, kind: true } });
    },
    async program(id: string) {
      return db.program.findUnique({
        where: { id },
        select: { name: true, cellId: true, cell: { select: { code: true } } },
      });
    },
    /** The program on file with the revision that a set-up names; the one it points at where that is not on file. */
    async programOf({
      programId,
      programName,
      programRevision,
      cellId,
    }: SetUpFields & Pick<SetUp, 'programName'>) {
      if (programName === null || programRevision === null) return programId;
      const key = { name: programName, revision: programRevision, cellId };
      const row = await db.program.findUnique({
        where: { name_revision_cellId: key },
        select: { id: true },
      });
      return row?.id ?? programId;
    },
    async fixtureExists(id: string): Promise<boolean> {
      return (await db.fixture.findUnique({ where: { id }, select: { id: true } })) !== null;
    },
    /** The one kept for a step at a cell. */
    async current(stepId: string, cellId: string): Promise<SetUp | null> {
      const row = await db.setUp.findFirst({
        where: { stepId, cellId, current: true },
        include: withNamesOfSetUp,
      });
      return row && toSetUp(row, await personNames(db, [row.frozenBy]));
    },
  };
}

export function setUpWriter(tx: TransactionClient) {
  return {
    ...setUpReader(tx),
    /** The one before stays on file and is no longer the one to set up by. */
    async freeze(
      row: SetUpFields & {
        id: string;
        stepId: string;
        frozenBy: string;
        frozenAt: Date;
        frozenFromRunId?: string;
      },
    ): Promise<void> {
      await tx.setUp.updateMany({
        where: { stepId: row.stepId, cellId: row.cellId, current: true },
        data: { current: false, version: { increment: 1 } },
      });
      await tx.setUp.create({ data: row });
    },
  };
}
