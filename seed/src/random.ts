/** A small repeatable generator (mulberry32): the same shop every time it is loaded on the same day. */
export interface Random {
  /** From 0 up to, not including, 1. */
  next(): number;
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  pick<T>(from: readonly T[]): T;
}

export function createRandom(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const between = (low: number, high: number) => low + (high - low) * next();
  return {
    next,
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    pick(from) {
      const picked = from[Math.floor(next() * from.length)];
      if (picked === undefined) throw new Error('There is nothing to pick from.');
      return picked;
    },
  };
}
