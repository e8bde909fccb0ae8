import type { Route } from '@tackboard/contract';
import { Rounds } from '../live/rounds.js';
import { forgetAnswer, keepAnswer, keptAnswer } from './browser-store.js';
import { saysNothing } from './outcome.js';

type AnySchema = Route['reply'];
type OutputOf<Schema extends AnySchema> = Schema['_zod']['output'];

/** Longer than any answer in the shop takes; a radio that hangs must not keep a screen blank. */
const patienceMs = 6_000;

/** By name: a late answer is not kept over a newer one. */
const rounds = new Map<string, Rounds>();

/**
 * Asks the server and keeps what it said under `name`; when no answer comes, gives what it said last.
 * Throws what `ask` threw when there is nothing kept, or nothing that this version can read.
 */
export async function askOrRecall<Schema extends AnySchema>(
  name: string,
  schema: Schema,
  ask: (signal: AbortSignal) => Promise<OutputOf<Schema>>,
): Promise<OutputOf<Schema>> {
  const asked = rounds.get(name) ?? new Rounds();
  rounds.set(name, asked);
  const round = asked.told();
  try {
    const answer = await ask(AbortSignal.timeout(patienceMs));
    if (asked.take(round)) await keep(name, answer);
    return answer;
  } catch (error) {
    if (!saysNothing(error)) throw error;
    const kept = await recall(name, schema);
    if (kept === null) throw error;
    return kept;
  }
}

/** What was kept under a name; null when there is nothing that this version can read. */
export async function recall<Schema extends AnySchema>(
  name: string,
  schema: Schema,
): Promise<OutputOf<Schema> | null> {
  const kept = await keptAnswer(name).catch(() => undefined);
  const read = schema.safeParse(kept);
  return read.success ? read.data : null;
}

/** Without storage a screen works as long as the server answers; that is no reason to stop it. */
export async function keep(name: string, answer: unknown): Promise<void> {
  await keepAnswer(name, answer).catch(() => undefined);
}

export async function forget(name: string): Promise<void> {
  await forgetAnswer(name).catch(() => undefined);
}
