import type { PartDetail } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import { notFound, refuseField } from '../refusal.js';
import { historyReader } from './history-store.js';
import { lastMade, usualQuantity } from './last-made.js';
import { folded, matches, searchKey, widePattern } from './search-words.js';
import type { KnownAs, PartRecord, partsReader } from './store.js';

type Store = ReturnType<typeof partsReader>;

export async function foundPart(store: Store, id: string, field?: string): Promise<PartRecord> {
  const part = await store.part(id);
  if (part === null) throw notFound('part', id, field);
  return part;
}

/** The part with what the jobs say of it. */
export async function partView(db: Db, part: PartRecord, timeZone: string): Promise<PartDetail> {
  const history = historyReader(db);
  const jobs = await history.doneJobs(part.id);
  return {
    ...part,
    lastMade: jobs.map((job) => lastMade(job, timeZone)),
    usualQuantity: usualQuantity(await history.pastQuantities(part.id)),
  };
}

export async function refuseUnknownCustomer(
  store: Store,
  customerId: string | null,
): Promise<void> {
  if (customerId === null || (await store.customerExists(customerId))) return;
  throw notFound('customer', customerId, 'body.customerId');
}

/** Numbers may differ in their dashes alone; a number that an order could take for another part's alias may not. */
export async function refuseNumberTaken(
  store: Store,
  number: string,
  ownId?: string,
): Promise<void> {
  const taken = (await store.knownAs(widePattern(number))).find(
    (known) =>
      known.id !== ownId &&
      (folded(known.number) === folded(number) || sameWords(known.alias, number)),
  );
  if (taken === undefined) return;
  throw refuseField(
    'DUPLICATE',
    `${number} is ${claim(taken, number)}. Use that part, or choose another number.`,
    'body.number',
    number,
    'a number under which no other part is known',
    { partId: taken.id, number: taken.number, name: taken.name },
  );
}

/** An alias leads to one part only: neither the number nor an alias of any other, nor said twice of one. */
export async function refuseAliasTaken(store: Store, part: PartRecord, alias: string) {
  if (searchKey(alias) === '') {
    throw refuseField(
      'INVALID',
      `The alias ${alias} has no letter or digit, so nobody could find the part by it.`,
      'body.alias',
      alias,
      'at least one letter or digit',
    );
  }
  const taken = (await store.knownAs(widePattern(alias))).find(
    (known) => sameWords(known.number, alias) || sameWords(known.alias, alias),
  );
  if (taken === undefined) return;
  const advice =
    taken.id === part.id ? 'The part is found by it already.' : 'Check which is meant.';
  throw refuseField(
    'DUPLICATE',
    `${alias} is ${claim(taken, alias)}. ${advice}`,
    'body.alias',
    alias,
    'a name under which no part is known',
    { partId: taken.id, number: taken.number, name: taken.name },
  );
}

function sameWords(known: string | null, words: string): boolean {
  return known !== null && matches(known, words) === 0;
}

function claim({ number, name, alias }: KnownAs, words: string): string {
  const part = `part ${number} (${name})`;
  return sameWords(number, words)
    ? `the number of ${part}`
    : `an alias (${alias ?? ''}) of ${part}`;
}
