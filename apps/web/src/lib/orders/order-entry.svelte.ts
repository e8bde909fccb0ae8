import { cells, orders, parts, type Order } from '@tackboard/contract';
import { Act } from '../api/act.svelte.js';
import { call } from '../api/call.js';
import { Resource } from '../live/resource.svelte.js';
import { LineEntry } from './line-entry.svelte.js';

const mostCustomers = 500;

/** A new order from the first key to the confirm. */
export class OrderEntry {
  readonly act = new Act();
  readonly customers = new Resource(
    async () => call(parts.customers, { query: { limit: mostCustomers } }),
    ['customer'],
  );
  readonly cells = new Resource(async () => call(cells.list), ['cell']);
  customerId = $state('');
  customerOrder = $state('');
  lines = $state.raw<readonly LineEntry[]>([]);
  asked = $state(false);
  taken = $state.raw<Order | null>(null);
  tookMs = $state.raw(0);
  #firstKeyAtMs: number | null = null;
  #keys = 0;

  constructor() {
    this.addLine();
    // A part that belongs to one customer names the customer too.
    $effect(() => {
      const customerId = this.lines[0]?.part?.customerId;
      if (customerId && this.customerId === '') this.customerId = customerId;
    });
  }

  addLine(): void {
    this.lines = [...this.lines, new LineEntry(++this.#keys, () => this.customerId)];
  }

  removeLine(key: number): void {
    this.lines = this.lines.filter((line) => line.key !== key);
  }

  /** The shop watches its own sixty seconds: they run from the first key. */
  noteKey(): void {
    this.#firstKeyAtMs ??= performance.now();
  }

  /** Sends the order; nothing is sent while a field is missing. Says whether it was taken. */
  async take(): Promise<boolean> {
    this.asked = true;
    for (const line of this.lines) line.asked = true;
    const lines = this.lines.map((line) => line.body).filter((body) => body !== null);
    const gaps = this.customerId === '' || this.customerOrder.trim() === '';
    if (gaps || lines.length < this.lines.length) return false;
    const entryMs =
      this.#firstKeyAtMs === null ? null : Math.round(performance.now() - this.#firstKeyAtMs);
    const body = { customerId: this.customerId, customerOrder: this.customerOrder, lines, entryMs };
    this.taken = await this.act.send(orders.add, { body });
    this.tookMs = entryMs ?? 0;
    return this.taken !== null;
  }
}
