import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { optionsFrom } from './mutation/options.mjs';
import { readSources } from './mutation/read-sources.mjs';
import { instrument } from './mutation/instrument.mjs';
import { toModules } from './mutation/to-modules.mjs';
import { evenly, judgeAll } from './mutation/judge-all.mjs';
import { linesOf, shareNoticed } from './mutation/report.mjs';
import { Stop, main, root, say } from './preparation/run.mjs';

const goal = 0.9;

/** Changes the code bit by bit and counts the changes that a test notices; fails below the goal. */
await main(async () => {
  const options = optionsFrom(process.argv.slice(2), join(root, 'packages/calc/src'));
  const { chosen, others, tests } = readSources(options.sources, options.names);
  const { files, changes } = await instrument(chosen);
  const picked = evenly(changes, options.sample);
  say(`${chosen.length} files, ${changes.length} changes, of which ${picked.length} are tried`);
  const judged = await judgeAll(picked, {
    folder: options.sources,
    modules: toModules([...files, ...others]),
    changed: new Set(files.map(({ name }) => name)),
    tests,
    slowestMs: options.slowestMs,
  });
  if (options.json !== null) writeFileSync(options.json, `${JSON.stringify(judged, null, 1)}\n`);
  for (const line of linesOf(judged)) process.stdout.write(`${line}\n`);
  const share = shareNoticed(judged);
  if (!(share >= goal)) {
    throw new Stop(
      `${(100 * share).toFixed(1)} % of the changes were noticed, the goal is ${100 * goal} %. ` +
        'Write tests for the lines above, or delete the code that makes no difference.',
    );
  }
});
