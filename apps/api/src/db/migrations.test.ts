import { appendFile, cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot } from '../project-root.js';
import { openDatabase } from './client.js';
import { migrate } from './migrations.js';
import { writeMigration } from './new-migration.js';

describe('migrations', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'tackboard-migrations-'));
  });
  afterAll(async () => rm(folder, { recursive: true, force: true }));

  /** The schema and its migrations, where a test may add to them. */
  async function copyOfProject(name: string): Promise<string> {
    const root = path.join(folder, name);
    await cp(path.join(projectRoot, 'prisma'), path.join(root, 'prisma'), { recursive: true });
    return root;
  }

  const onFile = async (root: string) =>
    (await readdir(path.join(root, 'prisma', 'migrations'), { withFileTypes: true }))
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name)
      .sort();

  it('bring an empty file up to date once, and a second time find nothing to do', async () => {
    const file = path.join(folder, 'empty.sqlite');
    expect(await migrate(file)).toEqual(await onFile(projectRoot));
    expect(await migrate(file)).toEqual([]);
    const database = await openDatabase(file);
    expect(await database.reader.person.count()).toBe(0);
    await database.close();
  });

  it('leave the file free for others as soon as it is up to date', async () => {
    const file = path.join(folder, 'free.sqlite');
    await migrate(file);
    const other = new Sqlite(file, { timeout: 0 });
    expect(other.pragma('journal_mode = WAL', { simple: true })).toBe('wal');
    other.close();
  });

  it('lead to the schema exactly', async () => {
    const root = await copyOfProject('same');
    expect(await writeMigration('difference', '29990101000000', root)).toBeNull();
  });

  it('are written from what the schema has more, and reach a file that holds rows', async () => {
    const root = await copyOfProject('more');
    const file = path.join(folder, 'more.sqlite');
    await migrate(file, root);
    const before = await openDatabase(file);
    await before.writer.customer.create({
      data: { id: 'c1', name: 'Kept', createdAt: new Date('2026-10-05T05:00:00Z') },
    });
    await before.close();
    await appendFile(
      path.join(root, 'prisma', 'schema.prisma'),
      '\nmodel Extra {\n  id String @id\n}\n',
    );
    const written = await writeMigration('extra', '29990101000000', root);
    expect(await readFile(path.join(written ?? '', 'migration.sql'), 'utf8')).toContain(
      'CREATE TABLE "Extra"',
    );
    expect(await migrate(file, root)).toEqual(['29990101000000_extra']);
    const after = await openDatabase(file);
    expect(await after.reader.customer.findMany()).toMatchObject([{ id: 'c1', name: 'Kept' }]);
    await after.close();
  });

  it('stop with an error when one cannot be applied', async () => {
    const root = await copyOfProject('broken');
    const added = path.join(root, 'prisma', 'migrations', '29990101000000_broken');
    await mkdir(added);
    await writeFile(path.join(added, 'migration.sql'), 'CREATE TABLE "Person" ("id" TEXT);\n');
    await expect(migrate(path.join(folder, 'broken.sqlite'), root)).rejects.toThrow();
  });
});
