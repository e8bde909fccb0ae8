import type { LedgerChange, LedgerStore } from './ledger.js';
import { emptyOutbox, type Outbox } from './outbox.js';

/** Keeps an outbox as long as the page stays open: where the browser lends no storage. */
export function memoryStore(): LedgerStore {
  let kept: Outbox = emptyOutbox;
  return {
    async read() {
      return Promise.resolve(kept);
    },
    async write({ put = [], remove = [], runs = kept.runs }: LedgerChange) {
      const gone = new Set([...remove, ...put.map(({ key }) => key)]);
      const entries = [...kept.entries.filter(({ key }) => !gone.has(key)), ...put];
      kept = { runs, entries: entries.toSorted((one, other) => one.order - other.order) };
      return Promise.resolve();
    },
  };
}
