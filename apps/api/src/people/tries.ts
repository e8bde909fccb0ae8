import { systemActor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import { afterFailure, waitS } from './attempts.js';
import { peopleWriter } from './store.js';

/** Limits how often a secret may be guessed, per person and per device. */
export function createTries({ uow }: Pick<Foundation, 'uow'>) {
  /** Counts the try before it is checked, so that a hundred guesses at once are a hundred tries. */
  async function countTry(keys: readonly string[]): Promise<void> {
    await uow.write(systemActor, async (unit) => {
      const writer = peopleWriter(unit.tx);
      for (const key of keys) {
        const before = await writer.attempts(key);
        const seconds = waitS(before, unit.now);
        if (seconds > 0)
          throw new Refusal(
            'TOO_MANY_ATTEMPTS',
            `Too many wrong tries. Wait ${seconds} s and try again, or ask the manager for a new PIN or password.`,
          );
        await writer.setAttempts(key, afterFailure(before, unit.now), unit.now);
      }
    });
  }

  return { countTry };
}
