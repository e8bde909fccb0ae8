import Database from 'better-sqlite3';
import { migrate } from '@tackboard/api';
import { inDays, writeBase, type ShopBase } from './base.js';
import { dice } from './dice.js';
import { writeEvents, writeJobs, writeRuns } from './history.js';
import { writeParts } from './parts.js';
import { planJobs } from './plan.js';
import { rowWriter } from './rows.js';
import type { ShopSize } from './size.js';

const seed = 20_261;

/**
 * Makes a database file of a busy shop up to this moment: the real migrations, then rows in bulk. Throws when a row
 * points at nothing.
 */
export async function makeShop(file: string, size: ShopSize): Promise<ShopBase> {
  await migrate(file);
  const db = new Database(file);
  try {
    for (const bulk of ['journal_mode = MEMORY', 'synchronous = OFF', 'cache_size = -300000'])
      db.pragma(bulk);
    db.pragma('foreign_keys = OFF');
    const base = withoutIndexes(db, () => db.transaction(() => fill(db, size))());
    const astray = db.pragma('foreign_key_check') as unknown[];
    if (astray.length > 0) throw new Error(`${astray.length} rows point at nothing.`);
    db.pragma('journal_mode = WAL');
    return base;
  } finally {
    db.close();
  }
}

/** Building an index once over all rows is far quicker than keeping it through every one of them. */
function withoutIndexes<T>(db: Database.Database, act: () => T): T {
  const indexes = db
    .prepare(`SELECT "name", "sql" FROM sqlite_master WHERE "type" = 'index' AND "sql" IS NOT NULL`)
    .all() as { name: string; sql: string }[];
  for (const { name } of indexes) db.exec(`DROP INDEX "${name}"`);
  const answer = act();
  for (const { sql } of indexes) db.exec(sql);
  return answer;
}

function fill(db: Database.Database, size: ShopSize): ShopBase {
  const now = new Date();
  const opened = inDays(now, -365 * size.years);
  const around = { write: rowWriter(db), dice: dice(seed), opened, now };
  const base = writeBase(around, size.cells);
  const by = base.manager.person.id;
  const parts = writeParts({ ...around, by, cells: base.cells }, size.parts);
  const jobs = planJobs({ ...around, size, parts, cells: base.cells });
  const making = { ...around, base };
  const { ends, events } = writeRuns(making, jobs);
  const told = [...events, ...writeJobs(making, jobs, ends)];
  writeEvents(making, told, size.events);
  for (const name of ['order', 'job']) around.write('Counter', { name, value: size.jobs });
  return base;
}
