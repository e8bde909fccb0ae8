import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { Refusal } from '../refusal.js';
import type { Sessions, SignedIn } from './sessions.js';
import { peopleReader, peopleWriter } from './store.js';
import { secretMatches } from './tokens.js';
import { createTries } from './tries.js';

export function createSignIn(
  foundation: Pick<Foundation, 'database' | 'uow'>,
  { start }: Sessions,
) {
  const { uow } = foundation;
  const read = peopleReader(foundation.database.reader);
  const { countTry } = createTries(foundation);

  /** One way in for passwords and PINs: the delay, the check that takes equally long for everyone, the session. */
  async function enter(
    actor: Actor,
    code: string,
    secret: string,
    kind: 'password' | 'pin',
    device: string,
  ): Promise<SignedIn> {
    const keys = [`person:${code.toLowerCase()}`, `device:${device}`];
    await countTry(keys);
    const row = await read.byCode(code);
    const stored =
      row === null || !row.active ? null : kind === 'pin' ? row.pinHash : row.passwordHash;
    if (!(await secretMatches(stored, secret)) || row === null) {
      throw new Refusal(
        'WRONG_CREDENTIALS',
        kind === 'pin'
          ? 'The code and the PIN do not belong together. Try again.'
          : 'The code and the password do not belong together. Try again.',
      );
    }
    const tablet = kind === 'pin' ? actor.tablet : null;
    return uow.write({ ...actor, person: row, command: null }, async (unit) => {
      await peopleWriter(unit.tx).clearAttempts(keys);
      return start(unit, row, tablet);
    });
  }

  return {
    async signIn(
      actor: Actor,
      input: { code: string; password: string },
      device: string,
    ): Promise<SignedIn> {
      return enter(actor, input.code, input.password, 'password', device);
    },
    async signInWithPin(actor: Actor, input: { code: string; pin: string }): Promise<SignedIn> {
      return enter(actor, input.code, input.pin, 'pin', actor.tablet?.id ?? 'none');
    },
    async signOut(actor: Actor): Promise<{ done: true }> {
      const { sessionId, person } = actor;
      if (sessionId === null || person === null) return { done: true };
      return uow.write({ ...actor, command: null }, async (unit) => {
        await peopleWriter(unit.tx).endSessions({ id: sessionId }, unit.now);
        unit.append({ type: 'session.ended', subjectType: 'person', subjectId: person.id });
        return { done: true as const };
      });
    },
  };
}
