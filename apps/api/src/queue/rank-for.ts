import { refuseField } from '../refusal.js';
import { rankBetween } from './rank.js';
import type { writer } from './store.js';

type Store = ReturnType<typeof writer>;

interface RankQuestion {
  readonly cellId: string;
  readonly beforeStepId: string | null;
  /** Where the step to stand before was named. */
  readonly field: string;
}

/** The rank before another step or at the end; numbers the queue again when there is no room left. */
export async function rankFor(
  store: Store,
  movingId: string,
  { cellId, beforeStepId, field }: RankQuestion,
): Promise<number> {
  const others = await store.ranks(cellId, movingId);
  const at = beforeStepId === null ? others.length : others.findIndex((x) => x.id === beforeStepId);
  if (at < 0) {
    throw refuseField(
      'NOT_FOUND',
      'The step to stand before is not in the run queue of this cell any more. Look at the queue as it is now and place it again.',
      field,
      beforeStepId,
      'an open step of the run queue, or null for its end',
    );
  }
  const neighbours = (rows: readonly { rank: number }[]) =>
    rankBetween({ before: rows[at - 1]?.rank ?? null, after: rows[at]?.rank ?? null });
  const rank = neighbours(others);
  if (rank !== null) return rank;
  await store.renumber(others.map(({ id }) => id));
  return neighbours(await store.ranks(cellId, movingId)) ?? 0;
}
