import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import * as engine from '@prisma/schema-engine-wasm/schema_engine_bg';
import type { SchemaEngine } from '@prisma/schema-engine-wasm';

/** The part of the platform's WebAssembly that is used here; the ES library's types do not name it. */
interface Wasm {
  instantiate(
    bytes: Uint8Array,
    imports: object,
  ): Promise<{ readonly instance: { readonly exports: { __wbindgen_start(): void } } }>;
}

type EngineModule = typeof engine & { __wbg_set_wasm(exports: object): void };

let loaded: Promise<void> | undefined;

/**
 * Lends Prisma's own schema engine, compiled to WebAssembly: it works with no network and no native binary.
 * Freeing the engine leaves its connection open, and with it a lock on the file that nobody else passes, so the
 * connections are closed here before this returns.
 */
export async function withSchemaEngine<T>(
  file: string,
  act: (schemaEngine: SchemaEngine) => Promise<T>,
): Promise<T> {
  loaded ??= loadEngine();
  await loaded;
  const adapter = new PrismaBetterSqlite3(
    { url: `file:${file}` },
    { shadowDatabaseUrl: ':memory:' },
  );
  const connections: Awaited<ReturnType<typeof adapter.connect>>[] = [];
  const connect = adapter.connect.bind(adapter);
  adapter.connect = async () => {
    const connection = await connect();
    connections.push(connection);
    return connection;
  };
  const connectToShadow = adapter.connectToShadowDb.bind(adapter);
  adapter.connectToShadowDb = async () => {
    const shadow = await connectToShadow();
    connections.push(shadow);
    const runStatement = shadow.executeRaw.bind(shadow);
    // The engine hands over a whole migration as if it were one statement, which this adapter refuses.
    shadow.executeRaw = async (statement) => {
      if (statement.args.length > 0) return runStatement(statement);
      await shadow.executeScript(statement.sql);
      return 0;
    };
    return shadow;
  };
  const factory = bindMigrationAwareSqlAdapterFactory(adapter);
  const opened = await engine.SchemaEngine.new({ datamodels: undefined }, () => undefined, factory);
  try {
    return await act(opened);
  } finally {
    opened.free();
    for (const connection of connections) await connection.dispose();
  }
}

async function loadEngine(): Promise<void> {
  const code = fileURLToPath(import.meta.resolve('@prisma/schema-engine-wasm/schema_engine_bg'));
  const bytes = await readFile(code.replace(/\.js$/, '.wasm'));
  const { WebAssembly } = globalThis as unknown as { WebAssembly: Wasm };
  const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': engine });
  (engine as EngineModule).__wbg_set_wasm(instance.exports);
  instance.exports.__wbindgen_start();
}
