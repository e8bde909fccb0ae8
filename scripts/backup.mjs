import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { copyFiles, filesOfBackup } from './database/files.mjs';
import { copyDatabase, dataFile, dataFolder, timeStamp } from './database/sqlite.mjs';
import { Stop, main, say } from './preparation/run.mjs';

await main(async () => {
  if (!existsSync(dataFile)) {
    throw new Stop(
      `There is nothing to back up at "${dataFile}". Start the tool once, or set TACKBOARD_DATA to its data folder.`,
    );
  }
  const folder = resolve(process.argv[2] ?? join(dataFolder, 'backups'));
  mkdirSync(folder, { recursive: true });
  const to = join(folder, `tackboard-${timeStamp()}.sqlite`);
  // The database first: what it speaks of lies on the disk already and is never changed. It gets its name last.
  const database = `${to}.whole`;
  const events = await copyDatabase({ from: dataFile, to: database });
  const filesTo = filesOfBackup(to);
  const files = await copyFiles({ database, from: join(dataFolder, 'files'), to: filesTo });
  renameSync(database, to);
  say(`backed up and checked, ${events} events, ${files} files: ${to}`);
});
