import { Fixture, type Program } from '@tackboard/contract';
import type { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

export type FixtureView = z.infer<typeof Fixture>;
export type ProgramView = z.infer<typeof Program>;
type FixtureFields = Omit<FixtureView, 'id' | 'version'>;
type ProgramFields = Omit<ProgramView, 'id' | 'version' | 'cellCode'>;

const ofCell = { cell: { select: { code: true } } } as const;

function toProgram({
  cell,
  print: _print,
  ...row
}: Prisma.ProgramGetPayload<{ include: typeof ofCell }>): ProgramView {
  return { ...row, cellCode: cell.code };
}

function toFixture(row: Prisma.FixtureGetPayload<object>): FixtureView {
  return { ...row, condition: Fixture.shape.condition.parse(row.condition) };
}

export function toolingReader(db: Db) {
  return {
    async fixtures(): Promise<FixtureView[]> {
      return (await db.fixture.findMany({ orderBy: { code: 'asc' } })).map(toFixture);
    },
    async fixture(id: string): Promise<FixtureView | null> {
      const row = await db.fixture.findUnique({ where: { id } });
      return row && toFixture(row);
    },
    async fixtureCoded(code: string): Promise<FixtureView | null> {
      const row = await db.fixture.findUnique({ where: { code } });
      return row && toFixture(row);
    },
    async programs(): Promise<ProgramView[]> {
      const rows = await db.program.findMany({
        include: ofCell,
        orderBy: [{ name: 'asc' }, { cell: { code: 'asc' } }, { writtenOn: 'desc' }],
      });
      return rows.map(toProgram);
    },
    async programAt(key: Pick<ProgramView, 'name' | 'revision' | 'cellId'>) {
      return db.program.findUnique({
        where: { name_revision_cellId: key },
        select: { id: true },
      });
    },
    async cellCode(id: string): Promise<string | null> {
      return (await db.cell.findUnique({ where: { id }, select: { code: true } }))?.code ?? null;
    },
  };
}

export function toolingWriter(tx: TransactionClient) {
  return {
    ...toolingReader(tx),
    async addFixture(id: string, fields: FixtureFields): Promise<FixtureView> {
      return toFixture(await tx.fixture.create({ data: { ...fields, id } }));
    },
    async changeFixture(
      id: string,
      changes: { readonly [Field in keyof FixtureFields]?: FixtureFields[Field] | undefined },
    ): Promise<FixtureView> {
      const row = await tx.fixture.update({
        where: { id },
        data: { ...(changes as Prisma.FixtureUpdateInput), version: { increment: 1 } },
      });
      return toFixture(row);
    },
    async addProgram(id: string, fields: ProgramFields): Promise<ProgramView> {
      return toProgram(await tx.program.create({ data: { ...fields, id }, include: ofCell }));
    },
  };
}
