import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { buildApp } from './app.js';
import { readConfig, type Config } from './config.js';
import { createContext } from './context.js';
import { migrate } from './db/migrations.js';

const say = (line: string) => process.stdout.write(`${line}\n`);

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { empty: { type: 'boolean', default: false } } });
  const config = readConfig(process.env);
  await mkdir(path.dirname(config.databaseFile), { recursive: true });
  const applied = await migrate(config.databaseFile);
  if (applied.length > 0) say(`Database brought up to date: ${applied.join(', ')}`);
  if (!values.empty) await loadDemoShopOnce(config);
  const context = await createContext(config);
  const app = await buildApp(context, { logger: false });
  await app.listen({ port: config.port, host: config.host });
  const { port } = app.server.address() as { port: number };
  say(`Tackboard is at http://localhost:${port}`);
  closeOnSignals(async () => {
    await app.close();
    await context.close();
  });
}

/** The seed is built on the service, so the service reaches it by name only. */
async function loadDemoShopOnce(config: Config): Promise<void> {
  const seed = '@tackboard/seed';
  const { loadDemoShop, demoSignIns } = (await import(seed)) as {
    loadDemoShop(config: Config, options: { progress: (line: string) => void }): Promise<boolean>;
    demoSignIns(context: { config: Config }): readonly string[];
  };
  await loadDemoShop(config, { progress: say });
  for (const line of demoSignIns({ config })) say(line);
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
