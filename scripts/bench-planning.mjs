import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Stop, main, root } from './preparation/run.mjs';

const usage =
  'Use: npm run bench:planning -- --file FILE [--seconds S] [--seed N] [--cpu] [--json]\n' +
  '  or npm run bench:planning -- --family cicirello|tardiness|machines [--each N] [--part K/N] [--seconds S,S,...] [--against S] [--runs N] [--seed N] [--cpu] [--json]';

function numberOf(name, text, least, whole) {
  const value = Number(text);
  if (text.trim() !== '' && value >= least && value < 1e9 && (!whole || Number.isInteger(value)))
    return value;
  throw new Stop(
    `--${name} is "${text}": a ${whole ? 'whole ' : ''}number of ${least} or more is needed.\n${usage}`,
  );
}

/** One share of a family, so that several processes can measure it side by side. */
function partOf(text) {
  const [part, parts] = text.split('/').map(Number);
  if (/^\d+\/\d+$/.test(text) && part >= 1 && part <= parts) return { part, parts };
  throw new Stop(`--part is "${text}": such as 1/2, the first of two, is needed.\n${usage}`);
}

function readWishes() {
  const text = (fallback) => ({ type: 'string', default: fallback });
  let values;
  try {
    ({ values } = parseArgs({
      options: {
        file: { type: 'string' },
        family: { type: 'string' },
        each: text('1'),
        part: text('1/1'),
        seconds: text('1'),
        against: text('10'),
        runs: text('2'),
        seed: text('1'),
        cpu: { type: 'boolean', default: false },
        json: { type: 'boolean', default: false },
      },
    }));
  } catch (error) {
    throw new Stop(`${error.message}\n${usage}`);
  }
  if ((values.file === undefined) === (values.family === undefined)) {
    throw new Stop(`Either --file or --family is needed.\n${usage}`);
  }
  const seconds = values.seconds.split(',').map((mark) => numberOf('seconds', mark, 0, false));
  if (values.file !== undefined && seconds.length > 1) {
    throw new Stop(`A file is solved once: --seconds takes one number.\n${usage}`);
  }
  return {
    file: values.file ?? null,
    family: values.family ?? null,
    each: numberOf('each', values.each, 1, true),
    ...partOf(values.part),
    seconds: seconds.toSorted((left, right) => left - right),
    against: numberOf('against', values.against, 0, false),
    runs: numberOf('runs', values.runs, 1, true),
    seed: numberOf('seed', values.seed, 0, true),
    cpu: values.cpu,
    json: values.json,
  };
}

/** Only the planning is compiled, and only when it changed; progress goes to the error stream. */
function compile() {
  const { status } = spawnSync(
    process.execPath,
    [join(root, 'node_modules/typescript/bin/tsc'), '-b', 'tests/bench/planning'],
    { cwd: root, stdio: ['ignore', 2, 2] },
  );
  if (status !== 0) throw new Stop('Compiling the bench failed; the lines above say why.');
}

await main(async () => {
  const wishes = readWishes();
  compile();
  const { benchPlanning } = await import(
    pathToFileURL(join(root, '.cache/bench-planning/main.js')).href
  );
  const { trouble } = benchPlanning(wishes);
  if (trouble !== null) throw new Stop(trouble);
});
