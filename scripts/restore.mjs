import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { copyFiles, filesOfBackup } from './database/files.mjs';
import {
  checkDatabase,
  copyDatabase,
  dataFile,
  dataFolder,
  timeStamp,
  withDatabase,
} from './database/sqlite.mjs';
import { Stop, main, say } from './preparation/run.mjs';

/** Leaving write-ahead logging needs the file alone, so it fails while the tool is running. */
async function takeFileAlone() {
  await withDatabase(dataFile, (query) => query('PRAGMA journal_mode = DELETE')).catch((error) => {
    throw new Stop(
      `"${dataFile}" is in use (${error.message}). Stop the tool, then restore again; nothing was changed.`,
    );
  });
}

await main(async () => {
  const from = process.argv[2] && resolve(process.argv[2]);
  if (!from) {
    throw new Stop('Name the backup to restore: npm run restore -- data/backups/NAME.sqlite');
  }
  await checkDatabase(from);
  mkdirSync(dataFolder, { recursive: true });
  if (existsSync(dataFile)) await takeFileAlone();
  const incoming = `${dataFile}.incoming`;
  const events = await copyDatabase({ from, to: incoming });
  const folder = join(dataFolder, 'files');
  const incomingFiles = `${folder}.incoming`;
  const files = await copyFiles({
    database: incoming,
    from: filesOfBackup(from),
    to: incomingFiles,
  });
  const stamp = timeStamp();
  if (existsSync(dataFile)) {
    const kept = `${dataFile}.before-${stamp}`;
    renameSync(dataFile, kept);
    say(`the data until now is kept as ${kept}`);
  }
  // The files until now are kept beside the data until now.
  if (existsSync(folder)) renameSync(folder, `${folder}.before-${stamp}`);
  if (existsSync(incomingFiles)) renameSync(incomingFiles, folder);
  renameSync(incoming, dataFile);
  say(`restored and checked, ${events} events, ${files} files: ${dataFile}`);
});
