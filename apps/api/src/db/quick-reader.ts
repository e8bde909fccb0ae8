import Database from 'better-sqlite3';
import type { Prisma } from './generated/client.js';

type Row = Record<string, unknown>;
type Revive = (value: never) => unknown;

/** What the declared type of a column says about its values; the rest comes as SQLite keeps it. */
const revivers: Readonly<Record<string, Revive>> = {
  BOOLEAN: (value: number) => value !== 0,
  DATETIME: (value: string) => new Date(value),
  JSONB: (value: string) => JSON.parse(value) as unknown,
};

/** Lists of ids of every length make statements of their own; the oldest give way. */
const keptStatements = 200;

interface Ready {
  readonly statement: Database.Statement<unknown[], Row>;
  readonly revive: readonly (readonly [string, Revive])[];
}

export type QuickReader = ReturnType<typeof openQuickReader>;

/**
 * Runs the hand-written queries of the stores on a reading connection of its own, each prepared once, with the
 * types that the query engine would give, but past it: the engine takes several times as long as the query.
 */
export function openQuickReader(file: string) {
  const db = new Database(file, { timeout: 5000 });
  db.pragma('query_only = ON');
  const ready = new Map<string, Ready>();

  function prepare(sql: string): Ready {
    const known = ready.get(sql);
    if (known !== undefined) return known;
    const statement = db.prepare<unknown[], Row>(sql);
    const revive = statement.columns().flatMap(({ name, type }) => {
      const reviver = type === null ? undefined : revivers[type.toUpperCase()];
      return reviver === undefined ? [] : [[name, reviver] as const];
    });
    const made = { statement, revive };
    const [oldest] = ready.keys();
    if (ready.size >= keptStatements && oldest !== undefined) ready.delete(oldest);
    ready.set(sql, made);
    return made;
  }

  return {
    query({ sql, values }: Pick<Prisma.Sql, 'sql' | 'values'>): Row[] {
      const { statement, revive } = prepare(sql);
      const rows = statement.all(...values.map(stored));
      for (const [name, reviver] of revive)
        for (const row of rows) {
          const value = row[name];
          if (value !== null) row[name] = reviver(value as never);
        }
      return rows;
    },
    close(): void {
      db.close();
    },
  };
}

/** A value as the query engine stores it, so that both compare alike. */
function stored(value: unknown): unknown {
  if (value instanceof Date) return value.toISOString().replace('Z', '+00:00');
  return typeof value === 'boolean' ? Number(value) : value;
}
