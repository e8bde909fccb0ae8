import { strengths } from '@tackboard/contract';
import { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';

const Row = z.object({
  outside: z.enum(strengths),
  outsideCoded: z.enum(strengths),
  cannotSay: z.enum(strengths),
});
type Row = z.infer<typeof Row>;

/** A row that the shop has changed; `name` is `procedure.travel`. */
export interface ChangedRow {
  readonly name: string;
  readonly row: Row;
  readonly version: number;
}

const prefix = 'policy.';

export function policyReader(db: Db) {
  return {
    async changed(): Promise<ChangedRow[]> {
      const rows = await db.setting.findMany({ where: { name: { startsWith: prefix } } });
      return rows.map(({ name, value, version }) => ({
        ...{ name: name.slice(prefix.length), version },
        row: Row.parse(value),
      }));
    },
  };
}

export function policyWriter(tx: TransactionClient) {
  return {
    ...policyReader(tx),
    /** The caller has checked the version inside the same unit of work. */
    async set({ name, row, version }: ChangedRow): Promise<void> {
      await tx.setting.upsert({
        where: { name: prefix + name },
        create: { name: prefix + name, value: row, version },
        update: { value: row, version },
      });
    },
  };
}
