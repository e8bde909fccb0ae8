import type { Run } from '@tackboard/contract';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act, Command, Entry } from './commands.js';
import { Ledger } from './ledger.js';
import { memoryStore } from './memory-store.js';
import type { Outcome } from './outcome.js';
import { refusedOnes, shownRun, waiting } from './outbox.js';

/** How one sending goes: as it should, or lost on the way there, on the way back, or in the server. */
const fates = ['ok', 'ok', 'lostRequest', 'lostAnswer', 'fault'] as const;
type Fate = (typeof fates)[number];

const runId = 'run-1';
const batch = 8;
const freshRun = {
  ...{ id: runId, version: 1, quantity: batch, stepGoodCount: 0, handOverNote: null },
  ...{ goodCount: 0, reworkCount: 0, scrapCount: 0, stops: [], readings: [] },
} as unknown as Run;

/** A server as the contract describes it: it keeps the answer with the key and refuses what does not go. */
class ModelServer {
  run = freshRun;
  readonly applied: string[] = [];
  readonly answers = new Map<string, Run>();
  ended = false;

  take(entry: Entry): Outcome {
    const known = this.answers.get(entry.key);
    if (known !== undefined) return { kind: 'accepted', run: known, words: [] };
    const why = this.#whyNot(entry);
    if (why !== null) return { kind: 'refused', as: { code: 'NOT_NOW', message: why, fields: [] } };
    const outbox = { entries: [{ ...entry, refused: null }], runs: { [runId]: this.run } };
    const after = shownRun(outbox, runId) ?? this.run;
    this.run = { ...after, version: this.run.version + 1 };
    this.applied.push(entry.key);
    this.answers.set(entry.key, this.run);
    return { kind: 'accepted', run: this.run, words: [] };
  }

  #whyNot(entry: Entry): string | null {
    if (this.ended) return 'The run has ended.';
    const stopped = this.run.stops.some(({ endedAt }) => endedAt === null);
    if (entry.kind === 'stop' && stopped) return 'It stands still already.';
    if (entry.kind === 'resume' && !stopped) return 'It does not stand still.';
    const good = entry.kind === 'count' ? (entry.body.good ?? 0) : 0;
    return good > 0 && this.run.stepGoodCount + good > batch ? 'More than the batch.' : null;
  }
}

/** One tablet: pages come and go, what it stored stays. */
class ModelTablet {
  readonly #kept = memoryStore();
  readonly pressed: Entry[] = [];
  ledger: Ledger;
  personId: string | null = 'O03';
  #page = { alive: true };
  #keys = 0;

  constructor(
    private readonly server: ModelServer,
    private readonly nextFate: () => Fate,
  ) {
    this.ledger = this.#open();
  }

  /** The page goes, in the middle of whatever it does, and another one opens. */
  async reload(): Promise<void> {
    this.#page.alive = false;
    this.#page = { alive: true };
    this.ledger = this.#open();
    await this.ledger.open();
  }

  async press(act: Act): Promise<void> {
    const happenedAt = new Date(Date.UTC(2026, 9, 5, 5, 0, this.pressed.length)).toISOString();
    await this.ledger.add({ ...act, ...doer, happenedAt });
    const entry = this.ledger.outbox.entries.at(-1);
    if (entry === undefined) throw new Error('A kept act is not in the line.');
    this.pressed.push(entry);
  }

  #open(): Ledger {
    const page = this.#page;
    const living = async <T>(answer: T): Promise<T> =>
      page.alive ? answer : new Promise(() => {});
    return new Ledger({
      store: {
        read: async () => living(await this.#kept.read()),
        write: async (change) => {
          await living(null);
          await this.#kept.write(change);
        },
      },
      newKey: () => `key-${(this.#keys += 1)}`,
      personId: () => this.personId,
      send: async (entry) => living(await this.#send(entry)),
    });
  }

  async #send(entry: Entry): Promise<Outcome> {
    const fate = this.nextFate();
    await Promise.resolve();
    if (fate === 'lostRequest' || fate === 'fault') return { kind: 'unanswered' };
    const outcome = this.server.take(entry);
    await Promise.resolve();
    return fate === 'lostAnswer' ? { kind: 'unanswered' } : outcome;
  }
}

const doer = { personId: 'O03', personCode: 'O03', runId, cellId: 'R1' };

type Step =
  | { readonly do: 'press'; readonly act: Act }
  | { readonly do: 'flush'; readonly wait: boolean }
  | { readonly do: 'reload' | 'fetch' | 'leave' | 'come' | 'end' };

const acts: fc.Arbitrary<Act> = fc.oneof(
  fc.constantFrom<Act>(
    { kind: 'start', body: { differences: [{ point: 'fixture', note: 'Clamp 2 is worn' }] } },
    { kind: 'count', body: { good: 1 } },
    { kind: 'count', body: { good: 2 } },
    { kind: 'count', body: { rework: 1 } },
    { kind: 'count', body: { scrap: 1 } },
    { kind: 'stop', body: { cause: 'fault' } },
    { kind: 'resume', body: {} },
    { kind: 'reading', body: { currentA: 250 } },
  ),
  fc.uuid().map((fileId): Act => ({
    ...{ kind: 'photo', body: { fileId, name: 'a.jpg', picture: new Blob(['x']) } },
  })),
  fc.integer().map((number): Act => ({ kind: 'note', body: { text: `line ${number}` } })),
);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 20, arbitrary: acts.map((act): Step => ({ do: 'press', act })) },
  { weight: 12, arbitrary: fc.boolean().map((wait): Step => ({ do: 'flush', wait })) },
  { weight: 4, arbitrary: fc.constantFrom<Step>({ do: 'reload' }, { do: 'fetch' }) },
  { weight: 2, arbitrary: fc.constantFrom<Step>({ do: 'leave' }, { do: 'come' }) },
  { weight: 1, arbitrary: fc.constant<Step>({ do: 'end' }) },
);

async function take(one: Step, tablet: ModelTablet, server: ModelServer): Promise<void> {
  switch (one.do) {
    case 'press':
      return tablet.press(one.act);
    case 'flush': {
      const round = tablet.ledger.flush();
      if (one.wait) await round;
      return;
    }
    case 'reload':
      return tablet.reload();
    case 'fetch':
      return tablet.ledger.take(server.run);
    case 'leave':
    case 'come':
      tablet.personId = one.do === 'come' ? 'O03' : null;
      return;
    case 'end':
      server.ended = true;
  }
}

interface Totals {
  readonly good: number;
  readonly rework: number;
  readonly scrap: number;
  readonly stops: number;
  readonly readings: number;
  readonly notes: readonly string[];
}

/** What a welder would have on a slip of paper: everything pressed, less what was refused. */
function onPaper(pressed: readonly Entry[], refusedKeys: ReadonlySet<string>): Totals {
  const all = pressed.filter(({ key }) => !refusedKeys.has(key));
  const counts = all.flatMap((entry) => (entry.kind === 'count' ? [entry.body] : []));
  const sum = (name: 'good' | 'rework' | 'scrap') =>
    counts.reduce((total, count) => total + (count[name] ?? 0), 0);
  return {
    ...{ good: sum('good'), rework: sum('rework'), scrap: sum('scrap') },
    stops: all.filter(({ kind }) => kind === 'stop').length,
    readings: all.filter(({ kind }) => kind === 'reading').length,
    notes: all.flatMap((entry) => (entry.kind === 'note' ? [entry.body.text] : [])),
  };
}

function totalsOf(run: Run | null): Totals | null {
  if (run === null) return null;
  const { goodCount, reworkCount, scrapCount, stops, readings, handOverNote } = run;
  return {
    ...{ good: goodCount, rework: reworkCount, scrap: scrapCount },
    ...{ stops: stops.length, readings: readings.length },
    notes: handOverNote === null ? [] : handOverNote.split('\n'),
  };
}

const refusedKeysOf = ({ ledger }: ModelTablet) =>
  new Set(refusedOnes(ledger.outbox.entries).map(({ key }) => key));

describe('the line of a tablet, against a slip of paper', () => {
  it('loses and doubles nothing, whatever the network, the server and the page do', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { maxLength: 40 }),
        fc.infiniteStream(fc.constantFrom(...fates)),
        async (plan, luck) => {
          const server = new ModelServer();
          let calm = false;
          const tablet = new ModelTablet(server, () => (calm ? 'ok' : luck.next().value));
          await tablet.ledger.take(server.run);
          for (const one of plan) {
            await take(one, tablet, server);
            const shown = totalsOf(shownRun(tablet.ledger.outbox, runId));
            expect(shown).toEqual(onPaper(tablet.pressed, refusedKeysOf(tablet)));
          }
          calm = true;
          tablet.personId = 'O03';
          await tablet.ledger.flush();
          expect(await tablet.ledger.flush()).toBe('done');
          const refused = refusedKeysOf(tablet);
          expect(waiting(tablet.ledger.outbox.entries)).toEqual([]);
          expect(server.applied).toEqual(
            tablet.pressed.map(({ key }) => key).filter((key) => !refused.has(key)),
          );
          expect(totalsOf(server.run)).toEqual(onPaper(tablet.pressed, refused));
          for (const entry of refusedOnes(tablet.ledger.outbox.entries))
            expect(tablet.pressed).toContainEqual({ ...entry, refused: null, tries: 0 });
        },
      ),
      { numRuns: 2_000 },
    );
  }, 120_000);
});

describe('the line of a tablet', () => {
  const count: Act = { kind: 'count', body: { good: 1 } };
  const act = (more: Partial<Command> = {}): Command =>
    ({ ...count, ...doer, happenedAt: '2026-10-05T05:00:00.000Z', ...more }) as Command;

  function lineOf(answers: Outcome[], signedIn: { personId: string | null } = { personId: 'O03' }) {
    const sent: Entry[] = [];
    let keys = 0;
    const ledger = new Ledger({
      store: memoryStore(),
      newKey: () => `key-${(keys += 1)}`,
      personId: () => signedIn.personId,
      async send(entry) {
        sent.push(entry);
        return Promise.resolve(answers.shift() ?? { kind: 'unanswered' });
      },
    });
    return { ledger, sent };
  }
  const yes: Outcome = { kind: 'accepted', run: { ...freshRun, version: 2 }, words: [] };
  const no: Outcome = {
    kind: 'refused',
    as: { code: 'NEEDS_CONFIRMATION', message: 'Really 9 of 8?', fields: [] },
  };

  it('sends the same key again after a lost answer, and nothing else before it', async () => {
    const { ledger, sent } = lineOf([{ kind: 'unanswered' }, yes, yes]);
    await ledger.add(act());
    await ledger.add(act());
    expect(await ledger.flush()).toBe('unanswered');
    expect(ledger.outbox.entries.map(({ tries }) => tries)).toEqual([1, 0]);
    expect(await ledger.flush()).toBe('done');
    expect(sent.map(({ key }) => key)).toEqual(['key-1', 'key-1', 'key-2']);
  });

  it('waits for the one who did it to sign in, and lets others go first elsewhere only', async () => {
    const signedIn = { personId: 'C01' };
    const { ledger, sent } = lineOf([yes, yes, yes], signedIn);
    await ledger.add(act());
    await ledger.add(act({ personId: 'C01' }));
    await ledger.add(act({ personId: 'C01', runId: 'run-2' }));
    await ledger.flush();
    expect(sent.map(({ key }) => key)).toEqual(['key-3']);
    signedIn.personId = 'O03';
    await ledger.flush();
    signedIn.personId = 'C01';
    await ledger.flush();
    expect(sent.map(({ key }) => key)).toEqual(['key-3', 'key-1', 'key-2']);
  });

  it('sends a photo before what refers to it, and takes it out of the line although it changes no run', async () => {
    const { ledger, sent } = lineOf([
      { kind: 'unanswered' },
      { kind: 'accepted', run: null, words: [] },
      { kind: 'accepted', run: null, words: [] },
    ]);
    await ledger.take(freshRun);
    const picture = new Blob(['picture']);
    const photo = { fileId: 'f1', name: 'a.jpg', picture };
    await ledger.add(act({ kind: 'photo', body: photo }));
    const of = { fileId: 'f1', subjectType: 'setUp', subjectId: 's1' } as const;
    await ledger.add(act({ kind: 'photoOf', body: of }));
    expect(await ledger.flush()).toBe('unanswered');
    expect(ledger.outbox.entries[0]?.body).toEqual(photo);
    expect(await ledger.flush()).toBe('done');
    expect(sent.map(({ key, kind }) => [key, kind])).toEqual([
      ['key-1', 'photo'],
      ['key-1', 'photo'],
      ['key-2', 'photoOf'],
    ]);
    expect(ledger.outbox).toEqual({ entries: [], runs: { [runId]: freshRun } });
  });

  it('keeps a refused photo to be shown, with its picture', async () => {
    const full: Outcome = {
      ...{ kind: 'refused', as: { code: 'TOO_LARGE', message: 'Too large.', fields: [] } },
    };
    const { ledger } = lineOf([full]);
    const picture = new Blob(['picture']);
    await ledger.add(act({ kind: 'photo', body: { fileId: 'f1', name: 'a.jpg', picture } }));
    expect(await ledger.flush()).toBe('done');
    expect(refusedOnes(ledger.outbox.entries)).toMatchObject([
      { kind: 'photo', body: { picture }, refused: { message: 'Too large.' } },
    ]);
  });

  it('keeps all when the server asks who is there', async () => {
    const { ledger } = lineOf([{ kind: 'signedOut' }]);
    await ledger.add(act());
    expect(await ledger.flush()).toBe('signedOut');
    expect(waiting(ledger.outbox.entries)).toHaveLength(1);
  });

  it('shows a refused act until a person sends it again, changed and as a new one, or puts it aside', async () => {
    const { ledger, sent } = lineOf([no, no, yes]);
    await ledger.add(act());
    await ledger.add(act());
    expect(await ledger.flush()).toBe('done');
    expect(refusedOnes(ledger.outbox.entries)).toMatchObject([
      { key: 'key-1', body: { good: 1 }, refused: { message: 'Really 9 of 8?' } },
      { key: 'key-2', body: { good: 1 } },
    ]);
    await ledger.putAside('key-2');
    await ledger.sendAgain('key-1', (command) => ({
      ...command,
      kind: 'count',
      body: { good: 1, beyondBatchConfirmed: true },
    }));
    expect(await ledger.flush()).toBe('done');
    expect(ledger.outbox.entries).toEqual([]);
    expect(sent.at(-1)).toMatchObject({
      ...{ key: 'key-3', happenedAt: '2026-10-05T05:00:00.000Z' },
      body: { good: 1, beyondBatchConfirmed: true },
    });
  });

  it('does not say that something is kept when it could not be kept', async () => {
    const ledger = new Ledger({
      store: { read: memoryStore().read, write: async () => Promise.reject(new Error('full')) },
      newKey: () => 'key-1',
      personId: () => 'O03',
      send: async () => Promise.resolve(yes),
    });
    await expect(ledger.add(act())).rejects.toThrow('full');
    expect(ledger.outbox.entries).toEqual([]);
  });
});
