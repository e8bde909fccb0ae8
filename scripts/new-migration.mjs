// Writes a migration for what changed in prisma/schema.prisma: npm run migration:new -- NAME
import process from 'node:process';

const name = process.argv[2];
if (name === undefined || !/^[a-z0-9_]+$/.test(name)) {
  process.stderr.write(
    'Name the migration in lower case letters, digits and _: npm run migration:new -- add_colour\n',
  );
  process.exit(1);
}
const { writeMigration } = await import('../apps/api/dist/db/new-migration.js');
const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
const folder = await writeMigration(name, stamp);
process.stdout.write(folder === null ? 'The schema has not changed.\n' : `Written: ${folder}\n`);
