import { existsSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { MigrationList } from '@prisma/schema-engine-wasm';
import { openSchemaEngine } from './schema-engine.js';

export const noFilters = { externalTables: [], externalEnums: [] };

/** The folder that holds `prisma/`, found from the source as from the build. */
export function repositoryRoot(): string {
  let folder = path.dirname(fileURLToPath(import.meta.url));
  while (!existsSync(path.join(folder, 'prisma', 'schema.prisma'))) {
    const parent = path.dirname(folder);
    if (parent === folder) throw new Error('The folder prisma/ was not found above the service. Maybe the program was moved without it.');
    folder = parent;
  }
  return folder;
}

export async function readMigrations(root: string): Promise<MigrationList> {
  const baseDir = path.join(root, 'prisma', 'migrations');
  const names = existsSync(baseDir) ? (await readdir(baseDir, { withFileTypes: true })).filter((entry) => entry.isDirectory()).map((entry) => entry.name).sort() : [];
  const lock = path.join(baseDir, 'migration_lock.toml');
  return {
    baseDir,
    lockfile: { path: 'migration_lock.toml', content: existsSync(lock) ? await readFile(lock, 'utf8') : 'provider = "sqlite"\n' },
    shadowDbInitScript: '',
    migrationDirectories: await Promise.all(
      names.map(async (name) => ({
        path: name,
        migrationFile: { path: 'migration.sql', content: { tag: 'ok' as const, value: await readFile(path.join(baseDir, name, 'migration.sql'), 'utf8') } },
      })),
    ),
  };
}

/** Brings a database file to the shape the service expects; answers the names of what was applied. */
export async function migrate(file: string, root = repositoryRoot()): Promise<readonly string[]> {
  const engine = await openSchemaEngine(file);
  try {
    const { appliedMigrationNames } = await engine.applyMigrations({ migrationsList: await readMigrations(root), filters: noFilters });
    return appliedMigrationNames;
  } finally {
    engine.free();
  }
}
