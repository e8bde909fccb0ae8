import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

export interface RunningServer {
  readonly port: number;
  readonly pid: number;
  /** The largest resident memory since the start, in MB (VmHWM of the kernel); null where there is no /proc. */
  peakMb(): number | null;
  /** Ends it by the signal and waits until it is gone. */
  end(signal: 'SIGTERM' | 'SIGKILL'): Promise<void>;
}

interface Start {
  readonly root: string;
  readonly data: string;
  readonly timeZone: string;
  /** Loads the demo shop, which takes minutes; else the folder is used as it is. */
  readonly demo?: boolean;
}

const longestStartMs = 60_000;
const longestLoadMs = 600_000;

/** Starts the compiled service as a process of its own on a free port of this machine alone. */
export async function startServer({
  root,
  data,
  timeZone,
  demo = false,
}: Start): Promise<RunningServer> {
  const port = await freePort();
  const entry = path.join(root, 'apps/api/dist/main.js');
  const child = spawn(
    process.execPath,
    [...memoryLimits(root), entry, ...(demo ? [] : ['--empty'])],
    {
      cwd: root,
      env: {
        ...process.env,
        HOST: '127.0.0.1',
        PORT: String(port),
        TACKBOARD_DATA: data,
        TACKBOARD_TIME_ZONE: timeZone,
        TACKBOARD_REQUESTS_PER_MIN: '10000000',
      },
      stdio: ['ignore', 'ignore', 'pipe'],
    },
  );
  let said = '';
  child.stderr.on('data', (text: Buffer) => (said += text.toString()));
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const { pid } = child;
  if (pid === undefined) throw new Error('The service could not be started.');
  const until = Date.now() + (demo ? longestLoadMs : longestStartMs);
  while (!(await answers(port))) {
    if (child.exitCode !== null || Date.now() > until) {
      child.kill('SIGKILL');
      throw new Error(`The service did not come up. ${said}`);
    }
    await pause(20);
  }
  return {
    port,
    pid,
    peakMb: () => peakMb(pid),
    async end(signal) {
      child.kill(signal);
      await gone;
    },
  };
}

/** The limits with which `npm start` runs the service; read from there, so that both are measured alike. */
function memoryLimits(root: string): string[] {
  const { scripts } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as {
    scripts: { start: string };
  };
  return scripts.start.split(' ').filter((word) => word.startsWith('--max-'));
}

async function answers(port: number): Promise<boolean> {
  const answer = await fetch(`http://127.0.0.1:${port}/api/health`).catch(() => null);
  return answer?.ok === true;
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

function peakMb(pid: number): number | null {
  if (process.platform !== 'linux') return null;
  const line = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'));
  return line?.[1] === undefined ? null : Math.round(Number(line[1]) / 102.4) / 10;
}
