import { randomUUID } from 'node:crypto';
import { inDays, dayOf, type ShopBase } from './shop/base.js';
import type { Caller } from './caller.js';

/**
 * What is measured: the two reads that stand open all day, and the one write that people wait for. The service works a
 * read out once for all who ask between two changes, so each is measured as it mostly comes and right after a change.
 */
export const operations = {
  board: { words: 'board read', target: 3 },
  boardAnew: { words: 'board after change', target: 3 },
  week: { words: 'week view', target: 3 },
  weekAnew: { words: 'week after change', target: 3 },
  pull: { words: 'pull', target: 5 },
} as const;
export type OperationName = keyof typeof operations;

export interface Signed {
  readonly manager: Caller;
  readonly welder: Caller;
}

export interface Pulled {
  readonly runId: string;
  readonly key: string;
}

/** The calls as the screens make them. */
export function callsOf({ manager, welder }: Signed, base: ShopBase) {
  const [booth] = base.cells;
  if (booth === undefined) throw new Error('A shop has a cell.');
  return {
    board: async () => manager.ok('GET', '/api/board'),
    /** The last whole week. */
    week: async () => manager.ok('GET', `/api/week?from=${mondayBefore(new Date())}`),
    async pull(key = randomUUID()): Promise<Pulled> {
      const reply = await welder.ok('POST', `/api/cells/${booth.id}/pull`, {}, key);
      const { run } = JSON.parse(reply) as { run: { id: string } };
      return { runId: run.id, key: `${base.welder.person.id}:${key}` };
    },
    async putDown({ runId }: Pulled): Promise<void> {
      await welder.ok('POST', `/api/runs/${runId}/put-down`, { setUpMin: 0 }, randomUUID());
    },
  };
}

function mondayBefore(now: Date): string {
  const sinceMonday = (now.getUTCDay() + 6) % 7;
  return dayOf(inDays(now, -7 - sinceMonday));
}
