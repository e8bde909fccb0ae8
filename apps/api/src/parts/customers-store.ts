import type { Customer } from '@tackboard/contract';
import type { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import { Prisma } from '../db/generated/client.js';

export type CustomerView = z.infer<typeof Customer>;

export function customersReader(db: Db) {
  const reader = {
    /** Names that may fit a pattern, by name. */
    async names(pattern: string): Promise<{ id: string; name: string }[]> {
      return db.$queryRaw`
        SELECT "id", "name" FROM "Customer" WHERE LOWER("name") LIKE ${pattern} ESCAPE '\\'
        ORDER BY "name"`;
    },
    async customers(ids: readonly string[]): Promise<CustomerView[]> {
      if (ids.length === 0) return [];
      const rows = await db.customer.findMany({
        where: { id: { in: [...ids] } },
        orderBy: { name: 'asc' },
        include: { _count: { select: { parts: true } } },
      });
      const open = await openJobs(db, ids);
      return rows.map(({ createdAt: _createdAt, _count, ...row }) => ({
        ...row,
        partCount: _count.parts,
        openJobCount: open.get(row.id) ?? 0,
      }));
    },
    async customer(id: string): Promise<CustomerView | null> {
      const [row] = await reader.customers([id]);
      return row ?? null;
    },
  };
  return reader;
}

async function openJobs(db: Db, customerIds: readonly string[]): Promise<Map<string, number>> {
  const rows = await db.$queryRaw<{ customerId: string; jobs: bigint }[]>`
    SELECT o."customerId", COUNT(*) AS "jobs"
    FROM "Job" j JOIN "Order" o ON o."id" = j."orderId"
    WHERE j."state" IN ('waiting', 'running') AND o."customerId" IN (${Prisma.join([...customerIds])})
    GROUP BY o."customerId"`;
  return new Map(rows.map(({ customerId, jobs }) => [customerId, Number(jobs)]));
}

export function customersWriter(tx: TransactionClient) {
  return {
    ...customersReader(tx),
    async addCustomer(id: string, name: string, createdAt: Date): Promise<void> {
      await tx.customer.create({ data: { id, name, createdAt } });
    },
    async changeCustomer(
      id: string,
      changes: { readonly name?: string | undefined; readonly active?: boolean | undefined },
    ): Promise<void> {
      await tx.customer.update({
        where: { id },
        data: { ...(changes as Prisma.CustomerUpdateInput), version: { increment: 1 } },
      });
    },
  };
}
