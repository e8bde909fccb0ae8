import Database from 'better-sqlite3';

/** One statement as the service ran it. */
export interface Statement {
  /** Which of the service's connections ran it. */
  readonly connection: number;
  readonly sql: string;
  readonly args: readonly unknown[];
  readonly kind: 'all' | 'run';
  /** Rows changed; only where `kind` is `run`. */
  readonly changes: number | null;
}

interface Bound {
  bind(...args: unknown[]): unknown;
  run(...args: unknown[]): Database.RunResult;
  all(...args: unknown[]): unknown[];
}

/**
 * Listens to every statement that better-sqlite3 is given in this process; the service itself knows nothing of it.
 * Statements may be prepared long before they run, so the ears must be open before the service is.
 */
export function openEars() {
  let heard: Statement[] = [];
  const connections: unknown[] = [];
  const prototype = Database.prototype as { prepare: (sql: string) => unknown };
  const prepare = prototype.prepare;
  prototype.prepare = function (this: unknown, sql: string) {
    if (!connections.includes(this)) connections.push(this);
    const statement = prepare.call(this, sql) as Bound;
    const connection = connections.indexOf(this);
    return listenTo(statement, { sql, connection }, (said) => heard.push(said));
  };
  return {
    async during(act: () => Promise<void>): Promise<Statement[]> {
      const said: Statement[] = (heard = []);
      await act();
      heard = [];
      return said;
    },
    close(): void {
      prototype.prepare = prepare;
    },
  };
}

function listenTo(
  statement: Bound,
  from: Pick<Statement, 'sql' | 'connection'>,
  hear: (said: Statement) => void,
): Bound {
  const { bind, run, all } = statement;
  let args: unknown[] = [];
  statement.bind = (...given) => {
    args = given.flat();
    return bind.apply(statement, given);
  };
  statement.run = (...given) => {
    const result = run.apply(statement, given);
    hear({ ...from, args: [...args, ...given], kind: 'run', changes: result.changes });
    return result;
  };
  statement.all = (...given) => {
    const rows = all.apply(statement, given);
    hear({ ...from, args: [...args, ...given], kind: 'all', changes: null });
    return rows;
  };
  return statement;
}

/** The same statements on connections of their own, with the service's settings and each prepared once. */
export function rawRunner(file: string, statements: readonly Statement[]) {
  const open = new Map<number, Database.Database>();
  const prepared = statements.map((statement) => {
    const db = open.get(statement.connection) ?? connect(file);
    open.set(statement.connection, db);
    return { statement, ready: db.prepare(statement.sql) };
  });
  return {
    /** Runs all of them in order; throws where one changes another number of rows than it did in the service. */
    run(argsOf: (statement: Statement) => readonly unknown[] = ({ args }) => args): void {
      for (const { statement, ready } of prepared) {
        const args = argsOf(statement);
        if (ready.reader) ready.all(...args);
        else if (ready.run(...args).changes !== statement.changes && isWrite(statement.sql))
          throw new Error(`Run raw, this did something else than in the service: ${statement.sql}`);
      }
    },
    close(): void {
      for (const db of open.values()) db.close();
    },
  };
}

function isWrite(sql: string): boolean {
  return /^\s*(INSERT|UPDATE|DELETE)/i.test(sql);
}

export function connect(file: string): Database.Database {
  const db = new Database(file, { timeout: 5000 });
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  return db;
}
