/** Sets of places, of which few are to hold many. */
export interface CoverProblem {
  /** How many places there are; each is to be held by one set at least. */
  places: number;
  sets: readonly (readonly number[])[];
}

/** The problem with like places taken together. */
export interface MergedCover {
  sets: readonly (readonly number[])[];
  /** How many places each of the merged ones stands for. */
  weights: readonly number[];
}

/** Places that the same sets hold are one; places that none holds are left out. */
export function mergedCover({ places, sets }: CoverProblem): MergedCover {
  const holders = Array.from({ length: places }, (): number[] => []);
  sets.forEach((set, at) => {
    for (const place of set) holders[place]?.push(at);
  });
  const merged = new Map<string, { holders: readonly number[]; weight: number }>();
  for (const each of holders) {
    if (each.length === 0) continue;
    const key = each.join(' ');
    merged.set(key, { holders: each, weight: (merged.get(key)?.weight ?? 0) + 1 });
  }
  const all = [...merged.values()];
  const placesOf = sets.map((): number[] => []);
  all.forEach((each, at) => {
    for (const set of each.holders) placesOf[set]?.push(at);
  });
  return { sets: placesOf, weights: all.map(({ weight }) => weight) };
}

/**
 * At most `most` sets, each time the one that adds the most; the first of equals. With no end it covers all that can
 * be covered, with an end it holds at least 1 - 1/e of the best (Nemhauser, Wolsey, Fisher 1978).
 */
export function greedyCover({ sets, weights }: MergedCover, most = Infinity): number[] {
  const open = new Set(weights.keys());
  const chosen: number[] = [];
  const gain = (set: readonly number[]) =>
    set.reduce((sum, place) => sum + (open.has(place) ? (weights[place] ?? 0) : 0), 0);
  while (chosen.length < most && open.size > 0) {
    const gains = sets.map(gain);
    const best = gains.reduce((at, each, index) => (each > (gains[at] ?? 0) ? index : at), 0);
    if ((gains[best] ?? 0) === 0) break;
    chosen.push(best);
    for (const place of sets[best] ?? []) open.delete(place);
  }
  return chosen.toSorted((a, b) => a - b);
}

/** The weight that chosen sets hold together. */
export function heldWeight({ sets, weights }: MergedCover, chosen: readonly number[]): number {
  const held = new Set(chosen.flatMap((at) => sets[at] ?? []));
  return [...held].reduce((sum, place) => sum + (weights[place] ?? 0), 0);
}
