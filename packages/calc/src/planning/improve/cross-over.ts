import type { Random } from '../random.js';

/**
 * Joins two orders: in each lane a stretch of `one` stays at its places, and the other steps follow around it in
 * the lanes and in the order of `two` (linear order cross-over, Falkenauer and Bouffouix 1991, lane by lane).
 * Orders are lists of steps with a 0 after each lane.
 */
export function crossOver(
  one: Int32Array,
  two: Int32Array,
  random: Random,
  scratch: { kept: Uint8Array; child: Int32Array },
): void {
  const { kept, child } = scratch;
  kept.fill(0);
  const cuts: { start: number; from: number; to: number }[] = [];
  for (let start = 0, end = 0; end < one.length; end += 1) {
    if (one[end] !== 0) continue;
    const length = end - start;
    const a = random.below(length + 1);
    const b = random.below(length + 1);
    const cut = { start, from: Math.min(a, b), to: Math.max(a, b) };
    for (let at = cut.from; at < cut.to; at += 1) kept[one[start + at]!] = 1;
    cuts.push(cut);
    start = end + 1;
  }
  let read = 0;
  let write = 0;
  for (const { start, from, to } of cuts) {
    let placed = 0;
    for (; two[read] !== 0 && placed < from; read += 1) {
      if (kept[two[read]!] === 1) continue;
      child[write++] = two[read]!;
      placed += 1;
    }
    for (let at = from; at < to; at += 1) child[write++] = one[start + at]!;
    for (; two[read] !== 0; read += 1) {
      if (kept[two[read]!] === 0) child[write++] = two[read]!;
    }
    child[write++] = 0;
    read += 1;
  }
}
