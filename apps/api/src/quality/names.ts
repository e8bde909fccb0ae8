import { qualityReader } from './store.js';

type Db = Parameters<typeof qualityReader>[0];

/** How a record names the people who signed it: `Wanda Kestelholm`, or the id of somebody unknown. */
export async function namesOf(db: Db, ids: readonly (string | null)[]) {
  const names = await qualityReader(db).names(ids.flatMap((id) => id ?? []));
  return (id: string) => names.get(id) ?? id;
}
