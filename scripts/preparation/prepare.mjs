import { join } from 'node:path';
import { checkNode, installPackages, prismaEnvironment } from './install.mjs';
import { mustRun } from './run.mjs';
import { hashOf, isCurrent, stamp } from './stamps.mjs';

const web = '@tackboard/web';
const compiled = ['packages/contract', 'packages/calc', 'apps/api', 'seed'];
const shared = ['package-lock.json', 'tsconfig.base.json'];
const screenSources = [
  'adapter',
  'messages',
  'project.inlang/settings.json',
  'src',
  'static',
  'package.json',
  'svelte.config.js',
  'tsconfig.json',
  'vite.config.ts',
].map((name) => `apps/web/${name}`);

function bin(name) {
  return join('node_modules', '.bin', name);
}

async function step({ name, inputs, outputs, make }) {
  const hash = hashOf(inputs);
  if (isCurrent({ name, hash, outputs })) return;
  await make();
  stamp({ name, hash });
}

/** Packages, the database client and the screens' made files: what an editor and the checks need. */
export async function prepareSources() {
  checkNode();
  await installPackages();
  await step({
    name: 'database-client',
    inputs: ['package-lock.json', 'prisma/schema.prisma', 'prisma.config.ts'],
    outputs: ['apps/api/src/db/generated'],
    make: () =>
      mustRun('database client', bin('prisma'), ['generate', '--schema', 'prisma/schema.prisma'], {
        env: prismaEnvironment,
      }),
  });
  await step({
    name: 'screen-types',
    inputs: ['package-lock.json', ...screenSources],
    outputs: ['apps/web/.svelte-kit/tsconfig.json', 'apps/web/src/lib/paraglide'],
    make: async () => {
      await mustRun('screen texts', 'npm', ['run', 'texts', '-w', web]);
      await mustRun('screen types', 'npm', ['exec', '-w', web, '--', 'svelte-kit', 'sync']);
    },
  });
}

/** Everything that `npm start` runs from. */
export async function prepareBuild() {
  await prepareSources();
  await step({
    name: 'server',
    inputs: [...shared, 'prisma/schema.prisma', ...compiled],
    outputs: compiled.map((folder) => `${folder}/dist`),
    make: () => mustRun('server', bin('tsc'), ['-b', ...compiled]),
  });
  await step({
    name: 'web',
    inputs: [...shared, 'packages', 'docs/method', 'docs/sources.md', ...screenSources],
    outputs: ['apps/web/build'],
    make: () => mustRun('screens', 'npm', ['run', 'build', '-w', web]),
  });
}
