import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, it } from 'vitest';
import { migrate } from './migrations.js';

const folder = mkdtempSync(path.join(tmpdir(), 'tackboard-migrations-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('leaves the file free for others as soon as it is up to date, and has nothing to do a second time', async () => {
  const file = path.join(folder, 'tackboard.sqlite');
  expect(await migrate(file)).not.toEqual([]);
  const other = new Database(file, { timeout: 0 });
  expect(other.pragma('journal_mode = WAL', { simple: true })).toBe('wal');
  other.close();
  expect(await migrate(file)).toEqual([]);
});
