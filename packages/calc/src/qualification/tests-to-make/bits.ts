/** A set of places in a list, one bit each. */
export type Bits = bigint;

export function bitsOf(places: readonly number[]): Bits {
  const last = places.reduce((most, place) => Math.max(most, place), -1);
  const digits = new Array<string>(last + 1).fill('0');
  for (const place of places) digits[last - place] = '1';
  return digits.length === 0 ? 0n : BigInt(`0b${digits.join('')}`);
}

export function indicesOf(bits: Bits): number[] {
  const digits = bits.toString(2);
  const places: number[] = [];
  for (let at = digits.length - 1; at >= 0; at -= 1) {
    if (digits[at] === '1') places.push(digits.length - 1 - at);
  }
  return places;
}

/** The sets that no other holds whole, in their order; of equal ones the first, and none that is empty. */
export function withoutDominated<T extends { bits: Bits }>(sets: readonly T[]): T[] {
  const first = new Map<Bits, T>();
  for (const set of sets) if (set.bits !== 0n && !first.has(set.bits)) first.set(set.bits, set);
  const kept: T[] = [];
  // The larger stand first, so that each needs to be held only against those that stayed.
  const bySize = [...first.values()]
    .map((set) => ({ set, size: indicesOf(set.bits).length }))
    .toSorted((a, b) => b.size - a.size);
  for (const { set } of bySize) {
    if (!kept.some(({ bits }) => (bits & set.bits) === set.bits)) kept.push(set);
  }
  const stays = new Set(kept);
  return [...first.values()].filter((set) => stays.has(set));
}
