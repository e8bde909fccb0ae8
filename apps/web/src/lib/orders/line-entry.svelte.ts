import {
  orders,
  parts,
  type BodyOf,
  type OrderCheck,
  type PartDetail,
  type PartSummary,
} from '@tackboard/contract';
import { call } from '../api/call.js';
import { emptyLine, isNameOf, lineBody, missingFields, type LineField } from './line-draft.js';

const settleMs = 200;

/** One line of a new order while it is being typed: its part, its fields and what the check says. */
export class LineEntry {
  readonly key: number;
  readonly draft = $state(emptyLine());
  found = $state.raw<readonly PartSummary[]>([]);
  searching = $state(false);
  part = $state.raw<PartDetail | null>(null);
  check = $state.raw<OrderCheck | null>(null);
  error = $state.raw<Error | null>(null);
  /** True once the order was sent while something was missing: empty fields are named from then on. */
  asked = $state(false);
  readonly body = $derived(lineBody(this.draft));
  readonly missing = $derived(this.asked ? missingFields(this.draft) : []);
  #searchTimer: ReturnType<typeof setTimeout> | undefined;
  #searchRound = 0;

  /** @param customerOf - who orders, by the order that the line stands in; empty while nobody is named */
  constructor(key: number, customerOf: () => string) {
    this.key = key;
    this.search('', 0);
    $effect(() => {
      const partId = this.draft.partId;
      if (partId !== '') void this.#openPart(partId);
      else this.part = null;
    });
    $effect(() => {
      const line = this.body;
      const { programmingMin } = this.draft;
      const customerId = customerOf() || null;
      if (line === null) {
        this.check = null;
        return;
      }
      const gone = new AbortController();
      const timer = setTimeout(
        () => void this.#ask({ ...line, customerId, programmingMin }, gone.signal),
        settleMs,
      );
      return () => {
        clearTimeout(timer);
        gone.abort();
      };
    });
  }

  isMissing(field: LineField): boolean {
    return this.missing.includes(field);
  }

  question(field: string): string | undefined {
    return this.check?.questions.find((one) => one.field.endsWith(field))?.text;
  }

  search(typed: string, afterMs = settleMs): void {
    this.searching = true;
    clearTimeout(this.#searchTimer);
    this.#searchTimer = setTimeout(() => void this.#find(typed), afterMs);
  }

  async #find(typed: string): Promise<void> {
    const round = ++this.#searchRound;
    try {
      const query = typed.trim() === '' ? { limit: 30 } : { search: typed.trim(), limit: 30 };
      const reply = await call(parts.list, { query });
      if (round !== this.#searchRound) return;
      this.found = reply.parts.filter((part) => part.active);
      this.searching = false;
      this.#takeScanned(typed.trim());
    } catch (error) {
      this.searching = false;
      this.#fail(error);
    }
  }

  /** A scanner types faster than an answer comes: the one part that bears the whole name is taken by itself. */
  #takeScanned(typed: string): void {
    const [only, ...others] = this.found;
    if (typed === '' || only === undefined || others.length > 0) return;
    if (isNameOf(only, typed)) this.draft.partId = only.id;
  }

  async #openPart(partId: string): Promise<void> {
    try {
      const part = await call(parts.get, { params: { partId } });
      if (this.draft.partId !== partId) return;
      this.part = part;
      this.draft.cells = {};
    } catch (error) {
      this.#fail(error);
    }
  }

  async #ask(body: BodyOf<typeof orders.check>, signal: AbortSignal): Promise<void> {
    try {
      this.check = await call(orders.check, { body, signal });
      this.error = null;
    } catch (error) {
      if (!signal.aborted) this.#fail(error);
    }
  }

  #fail(error: unknown): void {
    this.check = null;
    this.error = error instanceof Error ? error : new Error(String(error));
  }
}
