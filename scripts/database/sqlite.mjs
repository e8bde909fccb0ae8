import { existsSync, renameSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';
import sqlite3 from 'sqlite3';
import { Stop, root } from '../preparation/run.mjs';

export const dataFolder = resolve(root, process.env.TACKBOARD_DATA ?? 'data');
export const dataFile = join(dataFolder, 'tackboard.sqlite');

export function timeStamp() {
  return new Date().toISOString().slice(0, 19).replaceAll(/[-:]/g, '').replace('T', '-');
}

/** Opens a database file, runs the body with it and closes it again. */
export async function withDatabase(file, body) {
  const database = await new Promise((resolve, reject) => {
    const opened = new sqlite3.Database(file, sqlite3.OPEN_READWRITE, (error) =>
      error ? reject(error) : resolve(opened),
    );
  });
  try {
    return await body(promisify(database.all.bind(database)), database);
  } finally {
    await promisify(database.close.bind(database))();
  }
}

/**
 * Copies a database with SQLite's online backup while others may be writing to it.
 * The copy has its final name only once it is complete, whole and a file on its own.
 */
export async function copyDatabase({ from, to }) {
  const partial = `${to}.partial`;
  await withDatabase(from, async (_query, database) => {
    const backup = database.backup(partial);
    backup.retryErrors = [sqlite3.BUSY, sqlite3.LOCKED];
    const step = promisify(backup.step.bind(backup));
    while (!backup.completed) {
      await step(-1);
      if (backup.failed) throw new Stop(`Copying ${from} failed; is there room beside ${to}?`);
      if (!backup.completed) await pause(100);
    }
  });
  await withDatabase(partial, (query) => query('PRAGMA journal_mode = DELETE'));
  const rows = await checkDatabase(partial);
  renameSync(partial, to);
  return rows;
}

/** Reads every page and every reference of a file. Returns how many events it holds. */
export async function checkDatabase(file) {
  if (!existsSync(file)) {
    throw new Stop(`There is no file "${file}". Name a database file that exists.`);
  }
  return await withDatabase(file, async (query) => {
    const [integrity] = await query('PRAGMA integrity_check(1)').catch((error) => [
      { integrity_check: error.message },
    ]);
    if (integrity.integrity_check !== 'ok') {
      throw new Stop(`"${file}" is damaged: ${integrity.integrity_check}. Use an older backup.`);
    }
    const [broken] = await query('PRAGMA foreign_key_check');
    if (broken) {
      throw new Stop(`"${file}" is not whole: a row of ${broken.table} points to nothing.`);
    }
    const [events] = await query('SELECT count(*) AS rows FROM "Event"').catch(() => {
      throw new Stop(`"${file}" is a database, but not one of Tackboard's.`);
    });
    return events.rows;
  });
}
