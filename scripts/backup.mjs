import { existsSync, mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
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
  const events = await copyDatabase({ from: dataFile, to });
  say(`backed up and checked, ${events} events: ${to}`);
});
