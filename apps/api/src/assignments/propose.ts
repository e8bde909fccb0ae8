import type { WorkingWindow } from '@tackboard/calc';
import type { Clearer, Person } from '@tackboard/contract';
import { shopDay } from '../clock.js';

const msPerMin = 60_000;

/** Who could clear something, as far as it decides whom it is given to. */
export type Candidate = Pick<Person, 'id' | 'code' | 'name' | 'role' | 'coordinator' | 'active'>;

/**
 * Who is to clear it: among those who can, whoever takes the order, then whoever has the fewest open
 * assignments, then by code. Where the shop has nobody of that kind it is the manager's.
 */
export function personFor(
  clearedBy: Clearer,
  shop: {
    readonly people: readonly Candidate[];
    readonly takerId: string;
    readonly openOf: ReadonlyMap<string, number>;
  },
): Candidate | null {
  const { people, takerId, openOf } = shop;
  const active = people.filter((person) => person.active);
  const able = active.filter((person) =>
    clearedBy === 'coordinator' ? person.coordinator : person.role === clearedBy,
  );
  const pool = able.length > 0 ? able : active.filter(({ role }) => role === 'manager');
  const last = (person: Candidate) => [person.id === takerId ? 0 : 1, openOf.get(person.id) ?? 0];
  const [first] = pool.toSorted((a, b) => {
    const [ofA, ofB] = [last(a), last(b)];
    const at = ofA.findIndex((value, index) => value !== ofB[index]);
    return at < 0 ? a.code.localeCompare(b.code) : (ofA[at] ?? 0) - (ofB[at] ?? 0);
  });
  return first ?? active.find(({ id }) => id === takerId) ?? null;
}

/**
 * The last day on which the cell works before the day of the planned start; today where there is none between. Where
 * no start is known it is today.
 */
export function dayFor(
  startAt: string | null,
  at: { readonly now: Date; readonly timeZone: string; readonly windows: readonly WorkingWindow[] },
): string {
  const today = shopDay(at.now, at.timeZone);
  if (startAt === null) return today;
  const startDay = shopDay(new Date(startAt), at.timeZone);
  const days = at.windows
    .map(({ startMin }) => shopDay(new Date(startMin * msPerMin), at.timeZone))
    .filter((day) => day > today && day < startDay);
  return days.at(-1) ?? today;
}
