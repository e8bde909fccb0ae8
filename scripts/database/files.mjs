import { createHash } from 'node:crypto';
import { constants, createReadStream, existsSync } from 'node:fs';
import { copyFile, link, mkdir, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Stop } from '../preparation/run.mjs';
import { withDatabase } from './sqlite.mjs';

/** The folder of the files that belongs to a database file of that name. */
export const filesOfBackup = (file) => file.replace(/\.sqlite$/, '') + '.files';

/** Where a content lies in a folder of files: named by its SHA-256, as the service names it. */
const placeOf = (folder, sha256) => join(folder, sha256.slice(0, 2), sha256.slice(2));

/** The contents that a database speaks of; none where it is older than files are. */
async function contentsOf(database) {
  return withDatabase(database, async (query) => {
    const [table] = await query(`SELECT name FROM sqlite_master WHERE name = 'StoredFile'`);
    return table === undefined ? [] : query('SELECT DISTINCT sha256, bytes FROM "StoredFile"');
  });
}

/**
 * Brings every file that a database speaks of from one folder to another and reads it there to its end. On one disk
 * it is the same file under a second name: its content never changes. Returns how many there are.
 */
export async function copyFiles({ database, from, to }) {
  await rm(to, { recursive: true, force: true });
  const contents = await contentsOf(database);
  for (const { sha256 } of contents) {
    const [source, copy] = [placeOf(from, sha256), placeOf(to, sha256)];
    if (!existsSync(source)) {
      throw new Stop(
        `The file ${sha256} is missing in "${from}", though the database speaks of it. Fetch it from an older backup.`,
      );
    }
    await mkdir(dirname(copy), { recursive: true });
    await link(source, copy).catch(() => copyFile(source, copy, constants.COPYFILE_EXCL));
    if ((await sha256Of(copy)) !== sha256)
      throw new Stop(`"${source}" is damaged. Fetch it from an older backup.`);
  }
  return contents.length;
}

async function sha256Of(file) {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(file)) hash.update(piece);
  return hash.digest('hex');
}
