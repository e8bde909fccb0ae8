import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Run } from '@tackboard/contract';
import type { Entry } from './commands.js';
import type { LedgerStore } from './ledger.js';

interface Schema extends DBSchema {
  entries: { key: string; value: Entry; indexes: { order: number } };
  runs: { key: string; value: Run };
  /** Last answers of the server, by name: the session, the cells, the queue of a cell. */
  answers: { key: string; value: unknown };
}

let opened: Promise<IDBPDatabase<Schema>> | undefined;

/** The tablet's own database. Throws where the browser lends none. */
async function database(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>('tackboard', 1, {
    upgrade(db) {
      db.createObjectStore('entries', { keyPath: 'key' }).createIndex('order', 'order');
      db.createObjectStore('runs', { keyPath: 'id' });
      db.createObjectStore('answers');
    },
    // A newer page waits for this one to let go; it opens again with the next act.
    blocking(_current, _next, event) {
      opened = undefined;
      (event.target as IDBDatabase).close();
    },
    terminated() {
      opened = undefined;
    },
  });
  return opened;
}

/** Keeps an outbox in the browser's database, so that it outlives page, power and battery. */
export const browserStore: LedgerStore = {
  async read() {
    const tx = (await database()).transaction(['entries', 'runs']);
    const [entries, runs] = await Promise.all([
      tx.objectStore('entries').index('order').getAll(),
      tx.objectStore('runs').getAll(),
    ]);
    return { entries, runs: Object.fromEntries(runs.map((run) => [run.id, run])) };
  },
  async write({ put = [], remove = [], runs }) {
    const db = await database();
    // On the disk before the welder sees it counted; the browser's usual way may lose it with the power.
    const tx = db.transaction(['entries', 'runs'], 'readwrite', { durability: 'strict' });
    const [entryStore, runStore] = [tx.objectStore('entries'), tx.objectStore('runs')];
    const writes: Promise<unknown>[] = [
      ...remove.map(async (key) => entryStore.delete(key)),
      ...put.map(async (entry) => entryStore.put(entry)),
    ];
    if (runs !== undefined) {
      writes.push(runStore.clear());
      writes.push(...Object.values(runs).map(async (run) => runStore.put(run)));
    }
    await Promise.all([...writes, tx.done]);
  },
};

export async function keepAnswer(name: string, answer: unknown): Promise<void> {
  await (await database()).put('answers', answer, name);
}

export async function keptAnswer(name: string): Promise<unknown> {
  return (await database()).get('answers', name);
}

export async function forgetAnswer(name: string): Promise<void> {
  await (await database()).delete('answers', name);
}
