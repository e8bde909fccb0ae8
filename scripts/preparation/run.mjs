import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The folder that holds the root `package.json`. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

export function say(line) {
  process.stdout.write(`tackboard: ${line}\n`);
}

/** A stop that has been explained to the reader already, so that no stack trace follows it. */
export class Stop extends Error {}

/**
 * Runs a command in the project folder with its output shown.
 * Resolves with the exit code; a command that cannot be started rejects.
 */
export function run(command, args, { env = {}, quiet = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ['ignore', quiet ? 'ignore' : 'inherit', quiet ? 'ignore' : 'inherit'],
    });
    child.once('error', reject);
    child.once('exit', (code, signal) => resolve(signal ? 1 : (code ?? 1)));
  });
}

/** Runs a command that has to succeed, and says how long it took. */
export async function mustRun(what, command, args, options) {
  const startedAt = Date.now();
  say(`${what} ...`);
  const code = await run(command, args, options);
  if (code !== 0) {
    throw new Stop(
      `${what} failed: "${[command, ...args].join(' ')}" ended with code ${code}. ` +
        'The lines above say why; mend that and start again.',
    );
  }
  say(`${what}: done in ${Math.round((Date.now() - startedAt) / 1000)} s`);
}

/** Runs a script's main function and turns a failure into a sentence and exit code 1. */
export async function main(body) {
  try {
    await body();
  } catch (error) {
    process.stderr.write(`tackboard: ${error instanceof Stop ? error.message : error.stack}\n`);
    process.exitCode = 1;
  }
}
