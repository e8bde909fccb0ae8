import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { buildApp } from './app.js';
import { readConfig, type Config } from './config.js';
import { createContext, type Context } from './context.js';
import { migrate } from './db/migrations.js';

const say = (line: string) => process.stdout.write(`${line}\n`);

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { empty: { type: 'boolean', default: false } } });
  const config = readConfig(process.env);
  await mkdir(path.dirname(config.databaseFile), { recursive: true });
  const demo = values.empty ? null : await demoShop();
  if (demo !== null && !existsSync(config.databaseFile))
    await demo.loadDemoShop(config, { progress: say });
  const applied = await migrate(config.databaseFile);
  if (applied.length > 0) say(`Database brought up to date: ${applied.join(', ')}`);
  const context = await createContext(config);
  await context.services.files.tidy();
  const app = await buildApp(context, { logger: false });
  await app.listen({ port: config.port, host: config.host });
  const clockWork = setInterval(() => void endWitnessPoints(context), 60_000);
  const { port } = app.server.address() as { port: number };
  say(`Tackboard is at http://localhost:${port}`);
  for (const line of (await demo?.demoSignIns(context)) ?? []) say(line);
  closeOnSignals(async () => {
    clearInterval(clockWork);
    await app.close();
    await context.close();
  });
}

/** What fails now is tried again in a minute; readiness does not wait for the record. */
async function endWitnessPoints({ services }: Context): Promise<void> {
  try {
    await services.quality.endWitnessPoints();
  } catch (error) {
    process.emitWarning(error instanceof Error ? error : String(error));
  }
}

interface DemoShop {
  loadDemoShop(config: Config, options: { progress: (line: string) => void }): Promise<void>;
  demoSignIns(context: Context): Promise<readonly string[]>;
}

/** The seed is built on the service, so the service reaches it by name only. */
async function demoShop(): Promise<DemoShop> {
  const seed = '@tackboard/seed';
  return (await import(seed)) as DemoShop;
}

function closeOnSignals(close: () => Promise<void>): void {
  let closing = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (closing) return;
      closing = true;
      close().then(
        () => process.exit(0),
        (error: unknown) => {
          process.stderr.write(`${String(error)}\n`);
          process.exit(1);
        },
      );
    });
  }
}

await main();
