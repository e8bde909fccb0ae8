import { PartDetail } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

export type PartFields = Pick<
  PartDetail,
  | 'number'
  | 'name'
  | 'customerId'
  | 'coded'
  | 'traceability'
  | 'returnChance'
  | 'twoPersons'
  | 'notes'
  | 'outsideWork'
  | 'outsideDays'
>;
export type PartChanges = {
  readonly [Field in keyof PartFields | 'active']?: PartDetail[Field] | undefined;
};
/** What the part itself says; when it was made comes from the jobs. */
export type PartRecord = Omit<PartDetail, 'lastMade' | 'usualQuantity'>;

const withNames = {
  customer: { select: { name: true } },
  aliases: { include: { customer: { select: { name: true } } }, orderBy: { alias: 'asc' } },
  revisions: {
    select: {
      id: true,
      label: true,
      state: true,
      drawingNumber: true,
      releasedAt: true,
      _count: { select: { welds: true } },
    },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
  },
} as const satisfies Prisma.PartInclude;
type PartRow = Prisma.PartGetPayload<{ include: typeof withNames }>;

function toPart({ createdAt: _createdAt, customer, aliases, revisions, ...row }: PartRow) {
  return {
    ...row,
    customerName: customer?.name ?? null,
    traceability: PartDetail.shape.traceability.parse(row.traceability),
    returnChance: PartDetail.shape.returnChance.parse(row.returnChance),
    aliases: aliases.map(({ alias }) => alias),
    aliasRows: aliases.map(({ id, alias, customerId, customer: by }) => ({
      id,
      alias,
      customerId,
      customerName: by?.name ?? null,
    })),
    latestRevision: revisions[0]?.label ?? null,
    releasedRevision: revisions.find(({ state }) => state === 'released')?.label ?? null,
    revisions: revisions.map(({ _count, releasedAt, ...revision }) => ({
      ...revision,
      releasedAt: releasedAt?.toISOString() ?? null,
      weldCount: _count.welds,
    })),
  };
}

/** One row for each name under which a part is known. */
export interface KnownAs {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  readonly alias: string | null;
}

export function partsReader(db: Db) {
  return {
    async part(id: string): Promise<PartRecord | null> {
      const row = await db.part.findUnique({ where: { id }, include: withNames });
      return row && toPart(row);
    },
    /** In the order of the ids. */
    async partsByIds(ids: readonly string[]): Promise<PartRecord[]> {
      const rows = await db.part.findMany({
        where: { id: { in: [...ids] } },
        include: withNames,
      });
      const byId = new Map(rows.map((row) => [row.id, toPart(row)]));
      return ids.flatMap((id) => byId.get(id) ?? []);
    },
    async partsPage(page: { limit: number; offset: number }): Promise<PartRecord[]> {
      const rows = await db.part.findMany({
        include: withNames,
        orderBy: { number: 'asc' },
        take: page.limit,
        skip: page.offset,
      });
      return rows.map(toPart);
    },
    async partCount(): Promise<number> {
      return db.part.count();
    },
    /** Every name that may fit a pattern. */
    async knownAs(pattern: string): Promise<KnownAs[]> {
      return db.$queryRaw`
        SELECT p."id", p."number", p."name", a."alias"
        FROM "Part" p LEFT JOIN "PartAlias" a ON a."partId" = p."id"
        WHERE LOWER(p."number") LIKE ${pattern} ESCAPE '\\' OR LOWER(p."name") LIKE ${pattern} ESCAPE '\\'
          OR LOWER(a."alias") LIKE ${pattern} ESCAPE '\\'`;
    },
    async customerExists(id: string): Promise<boolean> {
      return (await db.customer.findUnique({ where: { id }, select: { id: true } })) !== null;
    },
  };
}

export function partsWriter(tx: TransactionClient) {
  return {
    ...partsReader(tx),
    async addPart(id: string, fields: PartFields, createdAt: Date): Promise<void> {
      await tx.part.create({ data: { ...fields, id, createdAt } });
    },
    async changePart(id: string, changes: PartChanges): Promise<void> {
      await tx.part.update({
        where: { id },
        data: { ...(changes as Prisma.PartUncheckedUpdateInput), version: { increment: 1 } },
      });
    },
    async addAlias(row: {
      readonly id: string;
      readonly partId: string;
      readonly customerId: string | null;
      readonly alias: string;
      readonly aliasKey: string;
    }): Promise<void> {
      await tx.partAlias.create({ data: row });
    },
    async removeAlias(id: string): Promise<void> {
      await tx.partAlias.delete({ where: { id } });
    },
  };
}
