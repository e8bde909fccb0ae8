import { AsyncLocalStorage } from 'node:async_hooks';
import type { Actor } from '../actor.js';
import type { NewEvent } from '../events/event.js';
import { appendEvents } from '../events/store.js';
import { Refusal } from '../refusal.js';
import type { Database, TransactionClient } from './client.js';
import type { Prisma } from './generated/client.js';

/** One open transaction with what belongs to it; of no use after it has ended. */
export interface Unit {
  /** For stores only: a writer is built from it. */
  readonly tx: TransactionClient;
  readonly actor: Actor;
  readonly now: Date;
  append(event: NewEvent): void;
  /** Runs once the rows are committed, never before, never after a rollback. */
  afterCommit(act: () => void): void;
}

export interface UnitOfWork {
  /**
   * Runs `act` in one transaction, one at a time, first come first served. What it returns is the answer of
   * the command and is stored under the command's key in the same commit.
   */
  write<T>(actor: Actor, act: (unit: Unit) => Promise<T>): Promise<T>;
  /** Called with nothing after each commit that appended events. */
  onCommit(listener: () => void): () => void;
  /** Waits until no write is under way. */
  drain(): Promise<void>;
}

const inside = new AsyncLocalStorage<boolean>();
const maxWaitMs = 15_000;
const timeoutMs = 30_000;

export function createUnitOfWork(database: Database, clock: { now(): Date }): UnitOfWork {
  // SQLite has one writer; waiting here, in order, is what keeps hundreds of simultaneous writes from failing.
  let tail: Promise<unknown> = Promise.resolve();
  const listeners = new Set<() => void>();

  async function run<T>(actor: Actor, act: (unit: Unit) => Promise<T>): Promise<T> {
    const events: NewEvent[] = [];
    const after: (() => void)[] = [];
    const answer = await database.writer.$transaction(
      async (tx) => {
        const stored = await storedAnswer(tx, actor);
        if (stored !== null) return stored.answer as T;
        const now = clock.now();
        const open = openUnit(tx, actor, now, events, after);
        const result = await act(open.unit).finally(open.close);
        if (events.length > 0) await appendEvents(tx, actor, now, events);
        if (actor.command !== null) await storeAnswer(tx, actor.command, result, now);
        return result;
      },
      { maxWait: maxWaitMs, timeout: timeoutMs },
    );
    // Committed is committed: whoever listens cannot make it look failed, and may begin a write of its own.
    inside.run(false, () => {
      for (const told of [...after, ...(events.length > 0 ? listeners : [])]) tell(told);
    });
    return answer;
  }

  return {
    async write(actor, act) {
      if (inside.getStore() === true)
        throw new Error(
          'A write inside a write would wait for itself. Pass the open unit on instead.',
        );
      const turn = tail.then(
        async () => inside.run(true, async () => run(actor, act)),
        async () => inside.run(true, async () => run(actor, act)),
      );
      tail = turn.catch(() => undefined);
      return turn;
    },
    onCommit(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async drain() {
      await tail;
    },
  };
}

function tell(listener: () => void): void {
  try {
    listener();
  } catch (error) {
    process.emitWarning(error instanceof Error ? error : String(error));
  }
}

function openUnit(
  tx: TransactionClient,
  actor: Actor,
  now: Date,
  events: NewEvent[],
  after: (() => void)[],
) {
  let open = true;
  const check = () => {
    if (!open) throw new Error('This unit of work has ended; nothing can be added to it.');
  };
  const unit: Unit = {
    get tx() {
      check();
      return tx;
    },
    actor,
    now,
    append(event) {
      check();
      events.push(event);
    },
    afterCommit(act) {
      check();
      after.push(act);
    },
  };
  return { unit, close: () => (open = false) };
}

export async function storedAnswer(
  db: Pick<TransactionClient, 'command'>,
  actor: Pick<Actor, 'command'>,
): Promise<{ answer: unknown } | null> {
  if (actor.command === null) return null;
  const { key, routeId, digest } = actor.command;
  const stored = await db.command.findUnique({ where: { key } });
  if (stored === null) return null;
  if (stored.routeId !== routeId || stored.digest !== digest) {
    throw new Refusal(
      'DUPLICATE',
      'This Idempotency-Key was used for another command. Give every command a key of its own.',
      {
        fields: [
          {
            field: 'header.idempotency-key',
            given: key.slice(0, 80),
            allowed: 'a key not used before',
          },
        ],
      },
    );
  }
  return { answer: stored.answer };
}

async function storeAnswer(
  tx: TransactionClient,
  command: NonNullable<Actor['command']>,
  answer: unknown,
  storedAt: Date,
): Promise<void> {
  await tx.command.create({
    data: { ...command, answer: answer as Prisma.InputJsonValue, storedAt },
  });
}
