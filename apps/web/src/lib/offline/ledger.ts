import type { Run } from '@tackboard/contract';
import type { Command, Entry } from './commands.js';
import type { Outcome } from './outcome.js';
import { emptyOutbox, nextToSend, reduce, type Outbox, type OutboxEvent } from './outbox.js';

/** Where an outbox outlives the page. Each write is taken over whole or not at all. */
export interface LedgerStore {
  read(): Promise<Outbox>;
  write(change: LedgerChange): Promise<void>;
}

export interface LedgerChange {
  readonly put?: readonly Entry[];
  readonly remove?: readonly string[];
  /** All runs that are known now, in place of the ones kept before. */
  readonly runs?: Outbox['runs'];
}

interface LedgerParts {
  readonly store: LedgerStore;
  readonly send: (entry: Entry) => Promise<Outcome>;
  readonly newKey: () => string;
  /** Keeps two pages of one tablet from sending at the same time. */
  readonly alone?: (act: () => Promise<RoundEnd>) => Promise<RoundEnd>;
  /** Who is signed in now. */
  readonly personId: () => string | null;
  readonly onchange?: (outbox: Outbox) => void;
  /** What the server said to an accepted entry, in words. */
  readonly onaccepted?: (entry: Entry, words: readonly string[]) => void;
}

/** How a round of sending ended: nothing left to send, no answer, or somebody must sign in. */
type RoundEnd = 'done' | 'unanswered' | 'signedOut';

/** Keeps what was done at the cell in the order it was done, and sends it: each entry once, one at a time. */
export class Ledger {
  #outbox: Outbox = emptyOutbox;
  #tail: Promise<unknown> = Promise.resolve();
  #round: Promise<RoundEnd> | null = null;
  readonly #parts: LedgerParts;

  constructor(parts: LedgerParts) {
    this.#parts = parts;
  }

  get outbox(): Outbox {
    return this.#outbox;
  }

  /** Reads what an earlier page, or another one of this tablet, left. */
  async open(): Promise<void> {
    await this.#inTurn(async () => this.#show(await this.#parts.store.read()));
  }

  /** Keeps a command before anything is sent. Throws when this tablet cannot keep it. */
  async add(command: Command): Promise<void> {
    await this.#inTurn(async () => {
      const entry = this.#entryFrom(command);
      await this.#apply({ type: 'added', entry }, { put: [entry] });
    });
  }

  /** Takes over a run that was fetched; see `reduce` for when it counts. */
  async take(run: Run): Promise<void> {
    await this.#inTurn(async () => {
      await this.#apply({ type: 'fetched', run }, {});
    });
  }

  /** Sends a refused entry again as a new act, with changes if any; it keeps the time when it was done. */
  async sendAgain(key: string, change: (command: Command) => Command = (same) => same) {
    await this.#inTurn(async () => {
      const refused = this.#outbox.entries.find((entry) => entry.key === key);
      if (refused === undefined) return;
      const entry = this.#entryFrom(change(refused));
      await this.#apply({ type: 'again', key, entry }, { put: [entry], remove: [key] });
    });
  }

  /** A person has read a refused entry and does without it. */
  async putAside(key: string): Promise<void> {
    await this.#inTurn(async () => this.#apply({ type: 'putAside', key }, { remove: [key] }));
  }

  /** Sends what waits, in order, until nothing is left or no answer comes. A round under way is joined. */
  async flush(): Promise<RoundEnd> {
    const { alone = async (act) => act() } = this.#parts;
    this.#round ??= alone(async () => this.#send()).finally(() => (this.#round = null));
    return this.#round;
  }

  async #send(): Promise<RoundEnd> {
    await this.open();
    for (;;) {
      const entry = nextToSend(this.#outbox.entries, this.#parts.personId());
      if (entry === null) return 'done';
      const outcome = await this.#parts.send(entry);
      if (outcome.kind === 'signedOut') return 'signedOut';
      await this.#inTurn(async () => this.#settle(entry, outcome));
      if (outcome.kind === 'unanswered') return 'unanswered';
      if (outcome.kind === 'accepted') this.#parts.onaccepted?.(entry, outcome.words);
    }
  }

  async #settle(entry: Entry, outcome: Exclude<Outcome, { kind: 'signedOut' }>): Promise<void> {
    const { key } = entry;
    switch (outcome.kind) {
      case 'accepted':
        // In one write: what the server holds now must not wait as well.
        return this.#apply({ type: 'accepted', key, run: outcome.run }, { remove: [key] });
      case 'unanswered': {
        const tried = { ...entry, tries: entry.tries + 1 };
        return this.#apply({ type: 'unanswered', key }, { put: [tried] });
      }
      case 'refused': {
        const refused = { ...entry, refused: outcome.as };
        return this.#apply({ type: 'refused', key, as: outcome.as }, { put: [refused] });
      }
    }
  }

  #entryFrom(command: Command): Entry {
    const last = this.#outbox.entries.reduce((most, { order }) => Math.max(most, order), 0);
    const fresh = { key: this.#parts.newKey(), order: last + 1, tries: 0, refused: null };
    return { ...command, ...fresh };
  }

  async #apply(event: OutboxEvent, entries: Pick<LedgerChange, 'put' | 'remove'>): Promise<void> {
    const next = reduce(this.#outbox, event);
    if (next === this.#outbox) return;
    const runs = next.runs === this.#outbox.runs ? {} : { runs: next.runs };
    await this.#parts.store.write({ ...entries, ...runs });
    this.#show(next);
  }

  #show(outbox: Outbox): void {
    this.#outbox = outbox;
    this.#parts.onchange?.(outbox);
  }

  /** What reads and changes the outbox happens one after the other; the network is waited for outside. */
  async #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.#tail.then(act, act);
    this.#tail = turn.catch(() => undefined);
    return turn;
  }
}
