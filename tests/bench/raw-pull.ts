import { randomUUID } from 'node:crypto';
import type { Pulled } from './operations.js';
import { connect, rawRunner, type Statement } from './statements.js';

/** A pull's own statements, again and again: each time under new ids, and taken back between the turns. */
export function rawPull(file: string, statements: readonly Statement[], heard: Pulled) {
  const runner = rawRunner(file, statements);
  const other = connect(file);
  const undo = undoOf(other, statements);
  return {
    /** Only this is measured. */
    prepare(): { run: () => void; takeBack: () => void } {
      const now: Pulled = { runId: randomUUID(), key: `raw:${randomUUID()}` };
      const renewed = new Map(
        statements.map((each) => [each, each.args.map((arg) => renew(arg, heard, now))]),
      );
      return {
        run: () => runner.run((statement) => renewed.get(statement) ?? []),
        takeBack: () => undo(now),
      };
    },
    close(): void {
      runner.close();
      other.close();
    },
  };
}

function renew(arg: unknown, heard: Pulled, now: Pulled): unknown {
  if (typeof arg !== 'string') return arg;
  return arg.replaceAll(heard.key, now.key).replaceAll(heard.runId, now.runId);
}

/** Puts the rows that a pull changes back as they are now, and takes out those that it adds, but for the events. */
function undoOf(db: ReturnType<typeof connect>, statements: readonly Statement[]) {
  const before = statements.flatMap((statement) => {
    const table = /^\s*UPDATE\s+(?:`main`\.)?[`"](\w+)[`"]/i.exec(statement.sql)?.[1];
    if (table === undefined) return [];
    return statement.args.flatMap((arg) => {
      const row = db.prepare(`SELECT * FROM "${table}" WHERE "id" = ?`).get(arg);
      return row === undefined ? [] : [{ table, row: row as Record<string, unknown> }];
    });
  });
  if (before.length === 0) throw new Error('A pull that changes no row is not one.');
  const restore = before.map(({ table, row }) => {
    const columns = Object.keys(row).filter((name) => name !== 'id');
    const sets = columns.map((name) => `"${name}" = @${name}`).join(', ');
    return { row, statement: db.prepare(`UPDATE "${table}" SET ${sets} WHERE "id" = @id`) };
  });
  const takeOut = [
    db.prepare('DELETE FROM "Holding" WHERE "runId" = @runId'),
    db.prepare('DELETE FROM "Run" WHERE "id" = @runId'),
  ];
  const forget = db.prepare('DELETE FROM "Command" WHERE "key" = @key');
  return db.transaction(({ runId, key }: Pulled) => {
    for (const statement of takeOut) statement.run({ runId });
    forget.run({ key });
    for (const { row, statement } of restore) statement.run(row);
  });
}
