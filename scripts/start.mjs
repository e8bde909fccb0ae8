import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { prepareBuild } from './preparation/prepare.mjs';
import { main, root, say } from './preparation/run.mjs';

// The server runs in this very process, so that a signal reaches it once and directly.
await main(async () => {
  await prepareBuild();
  const entry = join(root, 'apps/api/dist/main.js');
  process.argv[1] = entry;
  say('starting the server');
  await import(pathToFileURL(entry).href);
});
