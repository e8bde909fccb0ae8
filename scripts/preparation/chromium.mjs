import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { Stop, mustRun } from './run.mjs';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function installed() {
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)];
  return folders
    .flatMap((folder) => names.map((name) => join(folder, name)))
    .find((path) => isExecutable(path));
}

/**
 * The browser that the screen tests drive: the one named in TACKBOARD_CHROMIUM, else an installed one,
 * else Debian's own package when this process may install it.
 */
export async function findChromium() {
  const named = process.env.TACKBOARD_CHROMIUM;
  if (named) {
    if (isExecutable(named)) return named;
    throw new Stop(
      `TACKBOARD_CHROMIUM is "${named}", which is not a program. Name an installed Chromium or unset it.`,
    );
  }
  const found = installed();
  if (found) return found;
  if (process.getuid?.() === 0 && isExecutable('/usr/bin/apt-get')) {
    await mustRun('package list', 'apt-get', ['update']);
    await mustRun('Chromium', 'apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], {
      env: { DEBIAN_FRONTEND: 'noninteractive' },
    });
    const fresh = installed();
    if (fresh) return fresh;
  }
  throw new Stop(
    'No Chromium was found for the screen tests. Install one (on Debian: "apt-get install chromium") ' +
      'or name it in TACKBOARD_CHROMIUM, and run the tests again.',
  );
}
