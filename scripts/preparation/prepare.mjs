import { join } from 'node:path';
import { checkNode, installPackages, prismaEnvironment } from './install.mjs';
import { mustRun } from './run.mjs';
import { hashOf, isCurrent, stamp } from './stamps.mjs';

const compiled = ['packages/contract', 'packages/calc', 'apps/api', 'seed'];
const shared = ['package-lock.json', 'tsconfig.base.json'];

function bin(name) {
  return join('node_modules', '.bin', name);
}

async function step({ name, inputs, outputs, make }) {
  const hash = hashOf(inputs);
  if (isCurrent({ name, hash, outputs })) return;
  await make();
  stamp({ name, hash });
}

/** Packages, the database client and the web app's made type files: what an editor and the checks need. */
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
    inputs: [...shared, 'packages', 'apps/web'],
    outputs: ['apps/web/build'],
    make: () => mustRun('screens', 'npm', ['run', 'build', '-w', '@tackboard/web']),
  });
}
