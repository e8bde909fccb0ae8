/** Repeatable choices: the same seed gives the same sequence on every machine. */
export interface Random {
  /** A number from 0 up to, but not including, 1. */
  share: () => number;
  /** A whole number from 0 up to, but not including, `end`. */
  below: (end: number) => number;
}

/** xorshift128 (Marsaglia 2003) with its state filled from one seed by a mixing step. */
export function randomFrom(seed: number): Random {
  let mixed = seed | 0;
  const fill = (): number => {
    mixed = (mixed + 0x9e3779b9) | 0;
    let word = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
    return word ^ (word >>> 16);
  };
  let a = fill();
  let b = fill();
  let c = fill();
  // A state of all zeros would stay there.
  let d = fill() | 1;
  const next = (): number => {
    let word = a ^ (a << 11);
    word ^= word >>> 8;
    a = b;
    b = c;
    c = d;
    d = d ^ (d >>> 19) ^ word;
    return d >>> 0;
  };
  return {
    share: () => next() / 4_294_967_296,
    below: (end) => Math.floor((next() / 4_294_967_296) * end),
  };
}
