import { mkdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { projectRoot } from '../project-root.js';
import { noFilters, readMigrations } from './migrations.js';
import { withSchemaEngine } from './schema-engine.js';

/** Writes the SQL that leads from the migrations on file to the schema; null when nothing changed. */
export async function writeMigration(
  name: string,
  stamp: string,
  root = projectRoot,
): Promise<string | null> {
  const schema = path.join(root, 'prisma', 'schema.prisma');
  const { stdout } = await withSchemaEngine(':memory:', async (engine) =>
    engine.diff({
      from: { tag: 'migrations', ...(await readMigrations(root)) },
      to: {
        tag: 'schemaDatamodel',
        files: [{ path: schema, content: await readFile(schema, 'utf8') }],
      },
      script: true,
      exitCode: null,
      filters: noFilters,
    }),
  );
  if (stdout === null || stdout.includes('This is an empty migration')) return null;
  const folder = path.join(root, 'prisma', 'migrations', `${stamp}_${name}`);
  await mkdir(folder, { recursive: true });
  await writeFile(path.join(folder, 'migration.sql'), stdout);
  await writeFile(
    path.join(root, 'prisma', 'migrations', 'migration_lock.toml'),
    'provider = "sqlite"\n',
  );
  return folder;
}
