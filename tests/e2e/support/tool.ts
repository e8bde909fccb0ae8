import { spawn } from 'node:child_process';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../../', import.meta.url));
/** A demo shop that is loaded anew writes twelve weeks of work first. */
const longestStartMs = 400_000;

export interface Tool {
  readonly address: string;
  /** Where it keeps its data. */
  readonly folder: string;
  /** Ends the process; the data folder stays. */
  end(): Promise<void>;
  /** Ends the process as a power cut would; the data folder stays. */
  kill(): Promise<void>;
  /** Ends the process and removes its data. */
  stop(): Promise<void>;
}

export interface ToolOptions {
  /** Starts with no data at all; else the demo shop is loaded where there is none. */
  readonly empty?: boolean;
  /** Starts on a copy of this data folder. */
  readonly copyOf?: string;
  /** Starts on this data folder itself. */
  readonly on?: string;
}

/** Starts the compiled service as its own process on a free loopback port, as `npm start` does. */
export async function startTool({ empty = false, copyOf, on }: ToolOptions = {}): Promise<Tool> {
  const folder = on ?? (await mkdtemp(path.join(tmpdir(), 'tackboard-screens-')));
  if (copyOf !== undefined) await cp(copyOf, folder, { recursive: true });
  const child = spawn(process.execPath, ['apps/api/dist/main.js', ...(empty ? ['--empty'] : [])], {
    cwd: root,
    env: {
      ...process.env,
      PORT: '0',
      HOST: '127.0.0.1',
      TACKBOARD_DATA: folder,
      TACKBOARD_TIME_ZONE: 'Europe/Berlin',
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const endBy = async (signal: 'SIGTERM' | 'SIGKILL') => {
    child.kill(signal);
    await ended;
  };
  const end = async () => endBy('SIGTERM');
  try {
    const port = await portSaidBy(child);
    return {
      address: `http://127.0.0.1:${port}`,
      folder,
      end,
      kill: async () => endBy('SIGKILL'),
      async stop() {
        await end();
        await rm(folder, { recursive: true, force: true });
      },
    };
  } catch (error) {
    await end();
    throw error;
  }
}

/** The service prints its address once it listens. */
async function portSaidBy(child: ReturnType<typeof spawn>): Promise<number> {
  let said = '';
  return new Promise((resolve, reject) => {
    const late = setTimeout(
      () => reject(new Error(`The service did not start in time. It said:\n${said}`)),
      longestStartMs,
    );
    const listen = (chunk: Buffer) => {
      said += chunk.toString();
      const port = /is at http:\/\/localhost:(\d+)/.exec(said)?.[1];
      if (port === undefined) return;
      clearTimeout(late);
      resolve(Number(port));
    };
    child.stdout?.on('data', listen);
    child.stderr?.on('data', listen);
    child.once('exit', (code) => {
      clearTimeout(late);
      reject(new Error(`The service ended with code ${code}. It said:\n${said}`));
    });
  });
}
