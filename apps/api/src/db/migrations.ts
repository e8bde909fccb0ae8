import { existsSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import type { MigrationList } from '@prisma/schema-engine-wasm';
import { projectRoot } from '../project-root.js';
import { withSchemaEngine } from './schema-engine.js';

export const noFilters = { externalTables: [], externalEnums: [] };

export async function readMigrations(root: string): Promise<MigrationList> {
  const baseDir = path.join(root, 'prisma', 'migrations');
  const names = existsSync(baseDir)
    ? (await readdir(baseDir, { withFileTypes: true }))
        .filter((entry) => entry.isDirectory())
        .map((entry) => entry.name)
        .sort()
    : [];
  const lock = path.join(baseDir, 'migration_lock.toml');
  return {
    baseDir,
    lockfile: {
      path: 'migration_lock.toml',
      content: existsSync(lock) ? await readFile(lock, 'utf8') : 'provider = "sqlite"\n',
    },
    shadowDbInitScript: '',
    migrationDirectories: await Promise.all(
      names.map(async (name) => ({
        path: name,
        migrationFile: {
          path: 'migration.sql',
          content: {
            tag: 'ok' as const,
            value: await readFile(path.join(baseDir, name, 'migration.sql'), 'utf8'),
          },
        },
      })),
    ),
  };
}

/** Brings a database file to the shape the service expects; answers the names of what was applied. */
export async function migrate(file: string, root = projectRoot): Promise<readonly string[]> {
  return withSchemaEngine(file, async (engine) => {
    const { appliedMigrationNames } = await engine.applyMigrations({
      migrationsList: await readMigrations(root),
      filters: noFilters,
    });
    return appliedMigrationNames;
  });
}
