import { attachRoutes, files, type Run } from '@tackboard/contract';
import { call } from '../api/call.js';
import { newKey } from '../api/request.js';
import { browserStore } from './browser-store.js';
import { commandRoutes, type Command, type Entry } from './commands.js';
import { Ledger, type LedgerStore } from './ledger.js';
import { memoryStore } from './memory-store.js';
import { outcomeOf, type Outcome } from './outcome.js';
import { emptyOutbox, shownRun, type Outbox } from './outbox.js';

const patienceMs = 10_000;
/** A photo takes its time over the radio of a hall. */
const photoPatienceMs = 60_000;
/** How long to wait after the first, second, ... try that got no answer. */
const pausesMs = [1_000, 2_000, 4_000, 8_000, 15_000];

type Heard = (entry: Entry, words: readonly string[]) => void;

/** What was done at this tablet and waits for the server; one line for all its screens. */
class WaitingLine {
  #outbox = $state.raw<Outbox>(emptyOutbox);
  /** False when this browser lends no storage: what waits is lost with the page. */
  keeps = $state(true);
  /** Why sending rests, if it does. */
  rests = $state<'unanswered' | 'signedOut' | null>(null);
  #opening: Promise<Ledger> | null = null;
  #personId: () => string | null = () => null;
  #failures = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #hearers = new Set<Heard>();
  readonly #emptied = new Set<() => void>();

  get entries(): readonly Entry[] {
    return this.#outbox.entries;
  }

  run(runId: string): Run | null {
    return shownRun(this.#outbox, runId);
  }

  /** Opens the line and sends whenever there may be a way. Returns the way to stop. */
  start(personId: () => string | null): () => void {
    this.#personId = personId;
    const hurry = () => void this.flush();
    addEventListener('online', hurry);
    hurry();
    return () => {
      removeEventListener('online', hurry);
      clearTimeout(this.#timer);
      this.#personId = () => null;
    };
  }

  /** Calls back with the server's words to an entry that it took. Returns the way to stop. */
  onAccepted(hearer: Heard): () => void {
    this.#hearers.add(hearer);
    return () => this.#hearers.delete(hearer);
  }

  /** Calls back when a round of sending has left nothing to send. Returns the way to stop. */
  onEmptied(listener: () => void): () => void {
    this.#emptied.add(listener);
    return () => this.#emptied.delete(listener);
  }

  /** Keeps a command, shows it and starts sending. Throws when it cannot be kept. */
  async add(command: Command): Promise<void> {
    await (await this.#open()).add(command);
    void this.flush();
  }

  async take(run: Run): Promise<void> {
    await (await this.#open()).take(run);
  }

  async sendAgain(key: string, change?: (command: Command) => Command): Promise<void> {
    await (await this.#open()).sendAgain(key, change);
    void this.flush();
  }

  async putAside(key: string): Promise<void> {
    await (await this.#open()).putAside(key);
  }

  /** Sends what waits, and again after a pause while no answer comes. */
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    const ledger = await this.#open();
    const before = ledger.outbox.entries.length;
    const end = await ledger.flush();
    this.rests = end === 'done' ? null : end;
    if (end === 'done' && before > 0) for (const listener of this.#emptied) listener();
    this.#failures = end === 'unanswered' ? this.#failures + 1 : 0;
    if (end !== 'unanswered') return;
    clearTimeout(this.#timer);
    const pauseMs = pausesMs[Math.min(this.#failures, pausesMs.length) - 1];
    this.#timer = setTimeout(() => void this.flush(), pauseMs);
  }

  async #open(): Promise<Ledger> {
    this.#opening ??= this.#openAnew();
    return this.#opening;
  }

  async #openAnew(): Promise<Ledger> {
    const stored = this.#with(browserStore);
    try {
      await stored.open();
      return stored;
    } catch {
      this.keeps = false;
      return this.#with(memoryStore());
    }
  }

  #with(store: LedgerStore): Ledger {
    return new Ledger({
      store,
      send,
      newKey,
      alone,
      personId: () => this.#personId(),
      onchange: (outbox) => (this.#outbox = outbox),
      onaccepted: (entry, words) => {
        for (const hearer of this.#hearers) hearer(entry, words);
      },
    });
  }
}

/** Two pages of one tablet share the line; where the browser has no locks, the keys alone keep it from counting twice. */
async function alone<T>(act: () => Promise<T>): Promise<T> {
  return 'locks' in navigator ? navigator.locks.request('tackboard.line', act) : act();
}

async function send(entry: Entry): Promise<Outcome> {
  try {
    return await answerTo(entry);
  } catch (error) {
    return outcomeOf(error);
  }
}

async function answerTo(entry: Entry): Promise<Outcome> {
  const { runId, key: idempotencyKey, happenedAt, personId: actingPersonId } = entry;
  const by = { idempotencyKey, actingPersonId };
  if (entry.kind === 'photo') {
    const { fileId: id, name, picture } = entry.body;
    const form = new FormData();
    form.append('file', picture, name);
    const signal = AbortSignal.timeout(photoPatienceMs);
    await call(files.upload, { ...by, query: { id }, form, signal });
    return { kind: 'accepted', run: null, words: [] };
  }
  const signal = AbortSignal.timeout(patienceMs);
  if (entry.kind === 'photoOf') {
    const { fileId, subjectType, subjectId } = entry.body;
    const route = attachRoutes[subjectType];
    await call(route, { ...by, params: { subjectId }, body: { fileId }, signal });
    return { kind: 'accepted', run: null, words: [] };
  }
  // The pairs of kind and body were checked where the command was made.
  const route = commandRoutes[entry.kind] as typeof commandRoutes.resume;
  const body = { ...entry.body, happenedAt };
  const reply: unknown = await call(route, { ...by, params: { runId }, body, signal });
  return accepted(reply as Run | { run: Run; words: string[] });
}

function accepted(reply: Run | { run: Run; words: string[] }): Outcome {
  return 'run' in reply
    ? { kind: 'accepted', run: reply.run, words: reply.words }
    : { kind: 'accepted', run: reply, words: [] };
}

export const waitingLine = new WaitingLine();
