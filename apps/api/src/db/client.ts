import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { Prisma, PrismaClient } from './generated/client.js';
import { openQuickReader, type QuickReader } from './quick-reader.js';

/** What every store reads through: the reader connection, or the open transaction. */
export type Db = Pick<PrismaClient, keyof TransactionClient & keyof PrismaClient>;
export type TransactionClient = Parameters<Parameters<PrismaClient['$transaction']>[0]>[0];

export interface Database {
  readonly file: string;
  /** Sees what is committed, nothing else: it has a connection of its own. */
  readonly reader: PrismaClient;
  /** Used by the unit of work alone. */
  readonly writer: PrismaClient;
  close(): Promise<void>;
}

/** The settings without which the promises of the service do not hold. */
const required = {
  journal_mode: 'wal',
  foreign_keys: 1n,
  synchronous: 2n,
  busy_timeout: 5000n,
  // Without it a replaced row slips past the trigger that keeps the event log.
  recursive_triggers: 1n,
} as const;

/**
 * Opens one file twice: the adapter shares one connection per client, so a read through the writer
 * would see rows that are not committed yet.
 */
export async function openDatabase(file: string): Promise<Database> {
  const writer = await connect(file);
  const reader = await connect(file);
  await reader.$executeRawUnsafe('PRAGMA query_only = ON');
  const quick = openQuickReader(file);
  return {
    file,
    reader: withQuickQueries(reader, quick),
    writer,
    async close() {
      quick.close();
      await reader.$disconnect();
      await writer.$disconnect();
    },
  };
}

/** The same client, but for the queries that stores write by hand. */
function withQuickQueries(reader: PrismaClient, quick: QuickReader): PrismaClient {
  const queryRaw = async (query: TemplateStringsArray | Prisma.Sql, ...values: unknown[]) =>
    Promise.resolve(quick.query('sql' in query ? query : Prisma.sql(query, ...values)));
  return new Proxy(reader, {
    get: (client, name) =>
      name === '$queryRaw' ? queryRaw : (Reflect.get(client, name) as unknown),
  });
}

async function connect(file: string): Promise<PrismaClient> {
  const client = new PrismaClient({
    adapter: new PrismaBetterSqlite3({ url: `file:${file}`, timeout: 5000 }),
  });
  await client.$queryRawUnsafe('PRAGMA journal_mode = WAL');
  await client.$executeRawUnsafe('PRAGMA synchronous = FULL');
  await client.$executeRawUnsafe('PRAGMA foreign_keys = ON');
  await client.$executeRawUnsafe('PRAGMA recursive_triggers = ON');
  for (const [pragma, wanted] of Object.entries(required)) {
    const [row] = await client.$queryRawUnsafe<Record<string, unknown>[]>(`PRAGMA ${pragma}`);
    const found = row === undefined ? undefined : Object.values(row)[0];
    if (String(found) !== String(wanted)) {
      throw new Error(
        `The database must run with ${pragma} = ${String(wanted)}, but it is ${String(found)}: ${file}`,
      );
    }
  }
  return client;
}
