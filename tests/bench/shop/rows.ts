import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';

export type Row = Readonly<Record<string, unknown>>;

/** A value as the service stores it: instants as ISO 8601 with offset, truth as 0 or 1, lists as JSON. */
function stored(value: unknown): unknown {
  if (value instanceof Date) return value.toISOString().replace('Z', '+00:00');
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'object' && value !== null) return JSON.stringify(value);
  return value;
}

/** Fills tables row by row, with one prepared statement for each set of columns. */
export function rowWriter(db: Database.Database) {
  const statements = new Map<string, Database.Statement>();
  return (table: string, row: Row): void => {
    const columns = Object.keys(row);
    const key = `${table} ${columns.join()}`;
    let statement = statements.get(key);
    if (statement === undefined) {
      const names = columns.map((name) => `"${name}"`).join(', ');
      const places = columns.map(() => '?').join(', ');
      statement = db.prepare(`INSERT INTO "${table}" (${names}) VALUES (${places})`);
      statements.set(key, statement);
    }
    statement.run(Object.values(row).map(stored));
  };
}

export type WriteRow = ReturnType<typeof rowWriter>;

/** What the service stores of a token. */
export function printOf(token: string): string {
  return createHash('sha256').update(token).digest('base64url');
}
