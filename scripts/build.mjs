import { prepareBuild, prepareSources } from './preparation/prepare.mjs';
import { main } from './preparation/run.mjs';

// `--sources` stops before compiling: enough for an editor and for the checks.
await main(() => (process.argv.includes('--sources') ? prepareSources() : prepareBuild()));
