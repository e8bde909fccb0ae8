import type { SetUp } from '@tackboard/contract';
import type { ChangeRow, Closing } from './memory-store.js';
import { outsideSince, settingsAfter } from './settings.js';

/**
 * What a good run leaves for the next return: the set-up that it started from, with every change on top. Null where
 * the run is no example: short of its batch, or ended with settings outside the procedure.
 */
export function frozenFrom(facts: {
  setUp: SetUp | null;
  changes: readonly Pick<ChangeRow, 'variable' | 'to' | 'result' | 'at'>[];
  closing: Closing;
  good: number;
  quantity: number;
}): SetUp | null {
  const { setUp, changes, closing, good, quantity } = facts;
  if (setUp === null || good < quantity) return null;
  if (outsideSince(changes) !== null) return null;
  return {
    ...setUp,
    ...settingsAfter(setUp, changes),
    programRevision: closing.programAtClose ?? closing.programAtStart ?? setUp.programRevision,
    watchOuts: closing.watchOuts === null ? setUp.watchOuts : [...closing.watchOuts],
  };
}
