import { notFound, Refusal, stale } from '../refusal.js';
import type { proceduresReader, WpsRecord } from './store.js';
import { wpsView } from './views.js';

type Store = ReturnType<typeof proceduresReader>;

export async function foundWps(store: Store, id: string): Promise<WpsRecord> {
  const row = await store.wps(id);
  if (row === null) throw notFound('procedure', id);
  return row;
}

export async function refuseStale(store: Store, row: WpsRecord, expected: number): Promise<void> {
  if (row.version !== expected) throw stale('procedure', await wpsView(store, row), expected);
}

export function refuseUnlessDraft({ number, revision, state }: WpsRecord): void {
  if (state === 'draft') return;
  throw new Refusal(
    'NOT_NOW',
    `${number} revision ${revision} is ${state} and stays as it is. Start the next revision to change it.`,
  );
}
