import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Stop, mustRun, root, run, say } from './run.mjs';

const leastNode = [20, 19];

export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  const recentEnough = major > leastNode[0] || (major === leastNode[0] && minor >= leastNode[1]);
  if (!recentEnough) {
    throw new Stop(
      `Node ${process.versions.node} is too old: Tackboard needs Node ${leastNode.join('.')} or newer. ` +
        'Install a newer Node and start again.',
    );
  }
}

function packagesIn(lockFile) {
  return JSON.parse(readFileSync(join(root, lockFile), 'utf8')).packages;
}

/** npm leaves its own record of what it installed; a package missing from it may only be an optional one. */
function installedAsLocked() {
  if (!existsSync(join(root, 'node_modules/.package-lock.json'))) return false;
  const installed = packagesIn('node_modules/.package-lock.json');
  return Object.entries(packagesIn('package-lock.json')).every(([path, wanted]) => {
    if (!path.startsWith('node_modules/') && !path.includes('/node_modules/')) return true;
    const found = installed[path];
    if (!found) return wanted.optional === true || wanted.devOptional === true;
    return found.version === wanted.version && found.link === wanted.link;
  });
}

/** A module compiled for another Node, or never compiled, only shows when it is opened. */
async function nativeModulesOpen() {
  const open = "new (require('better-sqlite3'))(':memory:').close(); require('sqlite3');";
  return (await run(process.execPath, ['-e', open], { quiet: true })) === 0;
}

// Prisma's own engine is never run, and naming an existing file keeps its installer from fetching one.
export const prismaEnvironment = {
  PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
  PRISMA_HIDE_UPDATE_MESSAGE: '1',
};

/** Installs the locked packages, unless they are there and their compiled parts open. */
export async function installPackages() {
  if (!installedAsLocked()) {
    say('installing the packages; the two SQLite libraries are compiled, about 3 minutes in all');
    await mustRun('install', 'npm', ['ci', '--no-fund', '--no-audit'], { env: prismaEnvironment });
  }
  if (await nativeModulesOpen()) return;
  say('compiling the two SQLite libraries for this Node, about 3 minutes');
  await mustRun('compile SQLite', 'npm', ['rebuild', 'better-sqlite3', 'sqlite3']);
  if (!(await nativeModulesOpen())) {
    throw new Stop(
      'The SQLite libraries do not open after compiling. They need a C++ compiler, make and Python 3: ' +
        'on Debian, "apt-get install build-essential python3". Install them and start again.',
    );
  }
}
